cat > recipes/t.lua <<'END'
return recipe { title = "T", version = "1", licence = "CC0-1.0", level = 1, gives = { m = give.mass "M", x = give.anything { "X", optional = true } }, work = function (job, house, sheet)
  sheet.bench:line("M", Q "30 g ± 1 g", { of = "m" }) return { m = Q "30 g ± 5 g" } end }
END
lemel run t
