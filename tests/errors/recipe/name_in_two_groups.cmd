sed '/wax     = ask.mass/{s/wax/{ "The wax", wax/;s/}, *$/} }, { "Again", wax = ask.mass "Wax" },/}' recipes/cast.lua > tin.lua; lemel inspect ./tin.lua
