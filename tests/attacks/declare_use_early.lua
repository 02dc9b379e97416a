-- want: BAD_RECIPE "does not list"
-- whole file
local early = use.good {}
return recipe { title = "t", version = "1", level = 1, uses = { "good" }, work = function () return {} end }
