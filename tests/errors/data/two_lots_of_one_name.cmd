# Given on by a recipe: not where in the job they stand, but what both are called.
cat > both.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 1, uses = { "topup" }, gives = {},
  work = function (job, house, sheet)
    local jar = { name = "585", fineness = "585 ‰" }
    use.topup { melt = "31.2 g", melt_fineness = "752 ‰", needed = "34 g", promised = "750 ‰", jars = { jar, jar }, scale_step = "0.01 g" }
    return {}
  end }
END
lemel run both.lua
