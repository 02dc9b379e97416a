cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 2, gives = {}, work = function() return {} end,
  asks = { lots = ask.list { "Lots", of = ask.mass {}, default = { "2 g", "2 cm" } } } }
END
lemel check r.lua
