-- want: OK
-- whole file
return recipe { title = "t", version = "1", level = 1, proofs = { { "x", given = 5, expect = 7 }, 5, { given = {}, expect = { x = {} } } },
  work = function () return {} end }
