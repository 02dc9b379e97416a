-- want: BAD_RECIPE "it contains \"DO NOT\""
-- whole file
-- Tried: the title of a give as what is printed for a withheld one
-- Held by: wording of declared texts
return recipe { title = "t", version = "1", level = 1, gives = { m = give.mass "DO NOT" }, work = function () return {} end }
