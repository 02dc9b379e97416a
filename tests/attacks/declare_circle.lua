-- want: BAD_RECIPE "the recipes use each other in a circle: attack uses attack"
-- whole file
return recipe { title = "t", version = "1", level = 1, uses = { "attack" },
  work = function () return {} end }
