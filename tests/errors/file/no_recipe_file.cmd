lemel run ./none.lua
