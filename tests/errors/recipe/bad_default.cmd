cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 1,
  allowances = { a = ask.mass { "A", default = "1 mL", source = "common practice, no source" } }, gives = {}, work = function() return {} end }
END
lemel run r.lua
