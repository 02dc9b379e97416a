cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 2, gives = {}, work = function() return {} end,
  asks = { gold = ask.mass { "Gold", per = "g" } } }
END
lemel check r.lua
