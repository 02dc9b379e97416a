cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 1,
  gives = { a = give.mass "A" },
  work = function (job, house, sheet)
    sheet.bench:measure("Bowl", Q "5 min", { least = Q "12 min", most = Q "8 min" })
    return { a = Q"1 g" }
  end }
END
lemel run r.lua
