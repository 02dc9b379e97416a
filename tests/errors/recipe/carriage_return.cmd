printf 'return recipe { -- all is well\r title = "T" }\n' > recipes/t.lua
lemel run t
