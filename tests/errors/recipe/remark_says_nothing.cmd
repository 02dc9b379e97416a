cat > recipes/t.lua <<'END'
return recipe { title = "T", version = "1", licence = "CC0-1.0", level = 1, gives = { m = give.mass "M", x = give.anything { "X", optional = true } }, work = function (job, house, sheet)
  sheet:stop("heavy", " ", { "m" }) return { m = Q "1 g" } end }
END
lemel run t
