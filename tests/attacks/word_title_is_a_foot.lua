-- want: BAD_RECIPE "it contains \"Worked by\""
-- whole file
-- Tried: a title that reads like the foot of a sheet
-- Held by: wording of declared texts
return recipe { title = "Worked by need 1.0.0 with lemel 9.9", version = "1", level = 1, work = function () return {} end }
