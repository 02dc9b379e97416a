-- A second coat of opaque enamel on a brooch of fine silver: no casting, and the words of any bench.
return recipe {
  title = "Enamel, one coat on a brooch of fine silver", heads = "Enamel, one coat",
  version = "1.0.0", licence = "CC0-1.0", level = 2,
  asks = {
    white = ask.mass { "Opaque white, 80 mesh" },
    flux  = ask.mass { "Clear flux, 100 mesh" },
    start = ask.moment { "When the kiln is lit" },
    record = ask.list { "What was weighed", of = ask.record { "An entry", fields = { at = ask.moment {}, what = ask.text {}, mass = ask.mass { optional = true } } },
                        default = {}, source = "a job starts with an empty record" },
  },
  gives = { pad = give.mass "Onto the pad", rack_in = give.moment "Rack in" },
  work = function (job, house, sheet)
    local b, scale = sheet.bench, Q "0.001 g"
    local pad = job.white + job.flux
    local dry, hot = job.start + Q "60 min", job.start + Q "120 min"
    b:caution("dust", "Enamel dust may hold lead or cadmium: grind it wet, fitted mask, wash hands before food. Local rules decide")
    b:weigh("opaque white", job.white, { record = "weighed white", step = scale })
    b:weigh("clear flux", job.flux, { record = "weighed flux", step = scale, whole = true })
    b:total("Onto the pad", pad, { step = scale })
    b:measure("Wet coat", nil, { least = Q "0.30 mm", most = Q "0.45 mm", record = "wet coat" })
    b:set("Kiln", Q "815 °C", { least = Q "805 °C", most = Q "825 °C", also = "°F", record = "kiln" })
    b:curve { title = "Firing", of = "rack_in", from = Q "20 °C", steps = {
      { to = Q "150 °C", hold = Q "30 min", begins = job.start, there = job.start + Q "30 min", ends = dry },
      { to = Q "815 °C", hold = Q "15 min", begins = dry, there = hot, ends = hot + Q "15 min", name = "no draught" } } }
    b:tick("Dry on the kiln's roof, door ajar", { at = job.start })
    b:tick("Rack in: watch for the shine", { at = hot, till = hot + Q "3 min" })
    b:tick("Flatten under the weight", { after = Q "3 min", latest = Q "4 min" })
    sheet.client:sign("Seen and agreed", { "Client", "Date" })
    return { pad = pad, rack_in = hot }
  end,
}
