-- want: BAD_RECIPE "it contains \"CAUTION\""
-- whole file
-- Tried: the title of an ask as a remark
-- Held by: wording of declared texts
return recipe { title = "t", version = "1", level = 1, asks = { wax = ask.mass { "CAUTION none" } }, work = function () return {} end }
