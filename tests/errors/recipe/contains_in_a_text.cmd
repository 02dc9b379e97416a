cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 2, gives = {}, work = function() local t = contains("gold", "g") return {} end,
}
END
lemel run r.lua
