cat > recipes/bench.lua <<'R'
return recipe { title = "Bench", version = "1.0.0", level = 2,
  asks = {
    { "The wax", wax = ask.mass { "Wax" }, of = ask.alloy { "Metal" } },
    { wax = ask.mass { "Wax again" } },
  },
  gives = {}, work = function (job) return {} end }
R
lemel check bench
