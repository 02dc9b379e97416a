cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 1,
  gives = { a = give.mass "A" },
  work = function (job, house, sheet)
    sheet.bench:curve { from = Q "20 °C", steps = {
      { to = Q "150 °C", begins = Q "2026-11-27T03:06", there = Q "2026-11-27T03:50", ends = Q "2026-11-27T05:20" },
      { to = Q "370 °C", begins = Q "2026-11-27T05:10", there = Q "2026-11-27T07:10", ends = Q "2026-11-27T08:10" } } }
    return { a = Q"1 g" }
  end }
END
lemel run r.lua
