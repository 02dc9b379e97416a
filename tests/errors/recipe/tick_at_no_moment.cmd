cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 1,
  gives = { a = give.mass "A" },
  work = function (job, house, sheet)
    sheet.bench:tick("Load the kiln", { at = Q "22:00" })
    return { a = Q"1 g" }
  end }
END
lemel run r.lua
