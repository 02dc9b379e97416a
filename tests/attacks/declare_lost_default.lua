-- want: BAD_RECIPE "is a record, but a list is needed"
-- whole file
return recipe { title = "t", version = "1", level = 1, asks = { a = ask.list { "A", of = ask.mass {}, default = { x = 1 } } },
  work = function () return {} end }
