-- A small recipe for the tests of the command: every word of a sheet, and each kind of remark.
return recipe {
  title   = "Metal for a wax",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,

  asks = {
    wax     = ask.mass    { "Finished wax", from = "0.02 g", to = "2 kg" },
    density = ask.density { "Density of the metal" },
    wish    = ask.text    { "What the client wishes", optional = true },
  },
  allowances = {
    wax_density = ask.density { "Wax in use", default = "1 g/cm3", source = "common practice, no source" },
    crucible    = ask.volume  { "Capacity of the crucible" },
    share       = ask.ratio   { "Old metal above which a person must agree", default = "50 %",
                                source = "common practice, no source" },
    old         = ask.ratio   { "Old metal in the charge", default = "0 %",
                                source = "common practice, no source" },
  },
  gives = {
    charge = give.mass "Metal to weigh out",
  },

  work = function (job, house, sheet)
    local charge = job.wax * (job.density / house.wax_density)
    sheet.bench:line("Metal to weigh out", charge, { record = "charge", big = true })
    sheet.bench:box("Weigh the tree dry", "tree")
    sheet.client:line("Your piece, cast", charge)
    sheet:caution("fume", "Burning wax gives fume: run the extractor.")
    if charge / job.density > house.crucible then
      sheet:stop("crucible", "The charge is larger than the crucible holds", { "charge" })
    end
    if house.old > house.share then
      sheet:confirm("old", text.fill("Old metal is {share} of the charge", { share = house.old }), { "charge" })
    end
    return { charge = charge }
  end,

  proofs = {
    { "2 g of wax in a metal of 15 g/cm3", given = { wax = "2 g", density = "15 g/cm3", crucible = "10 cm3" },
      expect = { charge = "30 g" }, within = "0.1 g", source = "arithmetic: 2 * 15 / 1" },
  },
}
