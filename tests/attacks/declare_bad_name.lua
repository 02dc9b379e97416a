-- want: BAD_RECIPE "cannot be a name"
-- whole file
return recipe { title = "t", version = "1", level = 1, asks = { ["a\27[2J"] = ask.mass { "A", optional = true } },
  work = function () return {} end }
