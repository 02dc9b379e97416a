-- The row of the table that reaches furthest up to the band's width.

return rule "widen" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job)
    local best
    for _, row in ipairs(job.table) do
      if job.width >= row.from and (not best or row.from >= best.from) then best = row end
    end
    return { sizes_more = best and best.add or 0, of = best and best.of or "US" }
  end,
  proofs = {
    { "the row from 6 mm on", given = { size = "US 6", width = "7 mm", table = { { from = "6 mm", add = 0.25, of = "US" }, { from = "8 mm", add = 0.5, of = "US" } } },
      expect = { sizes_more = 0.25 }, source = "definition" },
    { "4 mm", given = { size = "US 6", width = "4 mm", table = { { from = "6 mm", add = 0.25, of = "US" } } }, expect = { sizes_more = 0 }, source = "not a wide band" },
  },
}
