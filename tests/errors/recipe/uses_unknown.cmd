cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 1, uses = { "poor" }, gives = {}, work = function() return {} end }
END
lemel run r.lua
