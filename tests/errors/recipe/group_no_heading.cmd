sed '/wax     = ask.mass/{s/wax/{ wax/;s/$/ },/;s/}, },/} },/}' recipes/cast.lua > tin.lua; lemel inspect ./tin.lua
