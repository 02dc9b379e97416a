-- want: BAD_RECIPE "a count"
-- whole file
-- Tried: a title that reads like the count of proofs
-- Held by: wording of declared texts
return recipe { title = "691 passed, 0 failed", version = "1", level = 1, work = function () return {} end }
