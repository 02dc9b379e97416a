-- The row of the table that reaches furthest up to the band's width: the house's wide_bands, else lemel's own.

local ring_sizes = require "ring_sizes"

return rule "widen" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job)
    local best
    for _, row in ipairs(job.table or ring_sizes.widening) do
      if job.width >= row.from and (not best or row.from >= best.from) then best = row end
    end
    return { sizes = best and best.add or 0, of = best and best.of or "US" }
  end,
  proofs = {
    { "7 mm", given = { size = "US 6", width = "7 mm" }, expect = { sizes = 0.25 }, source = "common practice, no source" },
    { "4 mm", given = { size = "US 6", width = "4 mm" }, expect = { sizes = 0 }, source = "not a wide band" },
    { "by the house's table", given = { size = "US 6", width = "7 mm", table = { { from = "5 mm", add = 0.5, of = "US" } } }, expect = { sizes = 0.5 },
      source = "the row from 5 mm on" },
  },
}
