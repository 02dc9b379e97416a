cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 2, gives = {}, work = function() return {} end,
  asks = { gold = ask.price { "Gold", per = "g" } } }
END
lemel run r.lua gold="68 USD/h"
