-- want: BAD_RECIPE "has no source"
-- whole file
return recipe { title = "t", version = "1", level = 1, allowances = { a = ask.mass { "A", default = "1 g" } },
  work = function () return {} end }
