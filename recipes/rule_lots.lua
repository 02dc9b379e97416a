-- All that were offered.

return rule "lots" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job)
    local fit = {}
    for i, l in ipairs(job.lots) do fit[i] = l.name end
    return { fit = fit }
  end,
  proofs = {
    { "both", given = { lots = { { name = "old ring", owner = "client", generation = 1, soldered = true },
        { name = "new grain", owner = "studio", generation = 0, soldered = false } }, settings = { "prongs" } },
      expect = { fit = { "old ring", "new grain" } }, source = "definition" },
  },
}
