cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 2, gives = {}, work = function() local t = Q("960 °C"):sign() return {} end,
}
END
lemel run r.lua
