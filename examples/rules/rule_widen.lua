-- Wide-ring climbers: a band of 6 to 8 mm is made a quarter US size larger, over 8 mm a half; another quarter for clients
-- who say "swollen in the morning"; a quarter less when it is hollow-ground inside. Never more than three quarters in all.

return rule "widen" {
  title = "Wide-ring climbers", version = "2.0.0", licence = "CC0-1.0",
  asks = {
    swollen = ask.yes_no { "The client says: swollen in the morning", default = false, source = "nobody said so" },
    hollow  = ask.yes_no { "Hollow-ground inside", default = false, source = "flat inside" },
  },
  allowances = {
    wide      = ask.length { "A quarter larger from", default = "6 mm", source = "our rule" },
    very_wide = ask.length { "A half larger above", default = "8 mm", source = "our rule" },
    most      = ask.number { "Never more than, in US sizes", default = 0.75, source = "our rule" },
  },

  work = function(job, house)
    local sizes = job.width > house.very_wide and 0.5 or job.width >= house.wide and 0.25 or 0
    if job.swollen then sizes = sizes + 0.25 end
    if job.hollow then sizes = sizes - 0.25 end
    return { sizes_more = min(sizes, house.most), of = "US" }
  end,

  proofs = {
    { "8 mm", given = { size = "US 10 1/4", width = "8 mm" }, expect = { sizes_more = 0.25 }, source = "the rule as it is spoken" },
    { "9 mm, swollen", given = { size = "US 10 1/4", width = "9 mm", swollen = true }, expect = { sizes_more = 0.75 }, source = "a half and a quarter" },
    { "7 mm, hollow-ground", given = { size = "US 6", width = "7 mm", hollow = true }, expect = { sizes_more = 0 }, source = "a quarter less a quarter" },
    { "4 mm", given = { size = "US 6", width = "4 mm" }, expect = { sizes_more = 0 }, source = "not a wide band" },
    { "never more than three quarters", given = { size = "US 6", width = "9 mm", swollen = true, most = 0.5 }, expect = { sizes_more = 0.5 }, source = "the house sets a half" },
  },
}
