-- What a year's filings and sweeps came to at the refiner.
return recipe {
  title = "The refiner's lot of a year", version = "1.0.0", licence = "CC0-1.0", level = 2,
  asks = { bench = ask.fine_mass { "Filings of the bench" }, held = ask.fine_mass { "Filings held for clients" }, floor = ask.fine_mass { "Floor and filter" },
           bars = ask.fine_mass { "Bars that came back" }, paid = ask.fine_mass { "Paid for" }, trust = ask.yes_no { "The refiner's assay is taken" } },
  gives = { lost = give.fine_mass "Lost at the refiner" },
  work = function (job, house, sheet)
    local m = sheet.metal
    local sent = job.bench + job.held + job.floor
    local lost = sent - job.bars - job.paid
    m:flow { title = "Where the filings went", of = "lost",
      { "bench", "sent in", job.bench }, { "held for clients", "sent in", job.held }, { "floor and filter", "sent in", job.floor },
      { "sent in", "bars", job.bars }, { "sent in", "paid for", job.paid }, { "sent in", "lost", lost },
      owners = { bench = "studio", ["held for clients"] = "clients" }, marks = { bars = "back", lost = "lost" } }
    m:total("Lost, by their assay", lost, { of = "lost" })
    m:grid { columns = { "Paper", "Here" }, rows = { { "Assay of the lot", { box = true } }, { "Scale ticket", { box = "ticket" } } } }
    if not job.trust then sheet:stop("assay", "Their assay is not taken: have the sample tested again", { "lost" }) end
    return { lost = lost }
  end,
}
