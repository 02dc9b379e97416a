cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 2, gives = {}, work = function() return {} end,
  asks = { gold = ask.price { "Gold", per = "gram" } } }
END
lemel check r.lua
