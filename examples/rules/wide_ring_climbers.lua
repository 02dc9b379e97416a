-- Wide-ring climbers: a band of 6 to 8 mm is made a quarter US size larger, over 8 mm a half; another quarter for clients
-- who say "swollen in the morning"; a quarter less when it is hollow-ground inside. Never more than three quarters in all.

return recipe {
  title   = "How much larger a wide band is made",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},

  asks = {
    size    = ask.ring_size { "Size as measured", example = "US 10 1/4" },
    width   = ask.length { "Width of the band", from = "0.5 mm", to = "40 mm" },
    swollen = ask.yes_no { "The client says: swollen in the morning", default = false, source = "nobody said so" },
    hollow  = ask.yes_no { "Hollow-ground inside", default = false, source = "flat inside" },
  },
  gives = {
    added = give.number "Added, in US sizes",
    make  = give.number "Size to make, US",
  },

  work = function(job, house, sheet)
    if job.size.system ~= "US" then
      sheet:stop("system", text.fill("The rule counts in US sizes, and {size} is not one", { size = job.size.text }))
      return {}
    end
    -- EDIT HERE
    local added = 0
    if job.width > Q "8 mm" then added = 0.5 elseif job.width >= Q "6 mm" then added = 0.25 end
    if job.swollen then added = added + 0.25 end
    if job.hollow then added = added - 0.25 end
    added = min(added, 0.75)
    sheet.bench:line("Size to make, US", job.size.size + added)
    return { added = added, make = job.size.size + added }
  end,

  proofs = {
    { "8 mm", given = { size = "US 10 1/4", width = "8 mm" }, expect = { added = 0.25, make = 10.5 },
      source = "the rule as it is spoken" },
    { "9 mm, swollen", given = { size = "US 10 1/4", width = "9 mm", swollen = true },
      expect = { added = 0.75, make = 11 }, source = "a half and a quarter" },
    { "7 mm, hollow-ground", given = { size = "US 6", width = "7 mm", hollow = true }, expect = { added = 0, make = 6 },
      source = "a quarter less a quarter" },
    { "4 mm", given = { size = "US 6", width = "4 mm" }, expect = { added = 0 }, source = "not a wide band" },
    { "a UK size", given = { size = "UK Q 1/2", width = "7 mm" }, stops = { "system" },
      source = "a quarter of another system is another width" },
  },
}
