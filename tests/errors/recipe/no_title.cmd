cat > r.lua <<'END'
return recipe { version = "1.0.0", level = 1, gives = {}, work = function() return {} end }
END
lemel run r.lua
