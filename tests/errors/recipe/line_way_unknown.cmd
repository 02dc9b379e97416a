cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 1,
  gives = { a = give.mass "A" },
  work = function (job, house, sheet)
    sheet.bench:measure("Button", Q "15 g", { record = "button", way = "stays" })
    return { a = Q"1 g" }
  end }
END
lemel run r.lua
