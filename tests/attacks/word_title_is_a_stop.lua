-- want: BAD_RECIPE "it contains \"STOP\""
-- whole file
-- Tried: a title in capitals of a tag
-- Held by: wording of declared texts
return recipe { title = "STOP lifted", version = "1", level = 1, work = function () return {} end }
