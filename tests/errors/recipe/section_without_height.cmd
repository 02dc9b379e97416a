cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 1,
  gives = { a = give.mass "A" },
  work = function (job, house, sheet)
    sheet.bench:section { vessel = { diameter = Q "63.5 mm" }, body = { diameter = Q "42 mm", height = Q "50 mm" } }
    return { a = Q"1 g" }
  end }
END
lemel run r.lua
