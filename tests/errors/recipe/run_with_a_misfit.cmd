# What the copy no longer gives is told before the run that fails by it.
cat >recipes/oversize.lua <<'RECIPE'
return recipe { title = "Rings by the house", version = "1.0.0", level = 1,
  asks = { rings = ask.list { "Rings", of = require("ring_sizes").ring } },
  gives = { made = give.whole "How many" },
  work = function(job) return { made = #job.rings } end,
  proofs = { { "one", given = { rings = { { name = "a", size = "US 7" } } }, expect = { made = 1 }, source = "arithmetic" } } }
RECIPE
lemel prove -q oversize
cat >recipes/pair.lua <<'RECIPE'
return recipe { title = "A pair", version = "1.0.0", level = 1, uses = { "oversize" },
  asks = { size = ask.text { "Size" } },
  gives = { made = give.whole "How many" },
  work = function(job) return { made = #use.oversize { rings = { { name = "a", size = job.size } } }.rings_made } end }
RECIPE
lemel run pair size="US 7"
