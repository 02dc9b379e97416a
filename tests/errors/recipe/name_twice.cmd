cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 1,
  asks = { a = ask.mass { "A" } }, gives = { a = give.mass "A" }, work = function() return {} end }
END
lemel run r.lua
