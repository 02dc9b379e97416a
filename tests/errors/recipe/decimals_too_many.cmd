cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 2, gives = {}, work = function() local t = decimals(1.5, 20) return {} end,
}
END
lemel run r.lua
