-- want: BAD_RECIPE "cannot be passed on"
-- whole file
return recipe { title = "t", version = "1", level = 1, uses = { "keeper" },
  work = function () use.keeper { thing = function () end } return {} end }
