cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 99, gives = {}, work = function() return {} end }
END
lemel run r.lua
