printf 'return recipe { %200s title = "T" }\n' '' > recipes/t.lua
lemel run t
