printf 'return recipe { title = "x", version = "1.0.0", licence = "CC0-1.0", level = 1,\n  asks = { wax = ask.mass { "Wax", optional = true, unless = "rings, resin" }, resin = ask.mass { "Resin", optional = true } },\n  gives = { m = give.mass "m" }, work = function (job) return { m = job.wax or job.resin } end, proofs = {} }\n' > x.lua
lemel check x.lua
printf 'return recipe { title = "x", version = "1.0.0", licence = "CC0-1.0", level = 1,\n  asks = { wax = ask.mass { "Wax", optional = true, unless = "wax" } },\n  gives = { m = give.mass "m" }, work = function (job) return { m = job.wax or Q "1 g" } end, proofs = {} }\n' > y.lua
lemel check y.lua
