cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 1,
  gives = { a = give.mass "A" },
  work = function (job, house, sheet)
    sheet.metal:flow { { "ring A", "melt", Q "7.986 g Au" }, { "grain", "melt", Q "6.125 g Au" },
      { "melt", "castings", Q "6.187 g Au" }, { "melt", "button", Q "7.9 g Au" } }
    return { a = Q"1 g" }
  end }
END
lemel run r.lua
