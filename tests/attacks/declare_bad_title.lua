-- want: BAD_RECIPE "characters that cannot be printed"
-- whole file
return recipe { title = "\27[2J", version = "1", level = 1, work = function () return {} end }
