cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 1,
  work = function (job, house, sheet)
    sheet:confirm("loss", "5 g is lost")
    sheet.bench:confirm("loss", "50 g is lost")
    return {}
  end }
END
lemel run r.lua
