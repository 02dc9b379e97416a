-- A thick shank shrinks a little more.
return rule "oversize" {
  title = "Thick shanks", version = "1.0.0", licence = "CC0-1.0",
  allowances = {
    thick = ask.length { "Thicker than this", default = "2.2 mm", source = "our rule" },
    more = ask.ratio { "Shrinks more by", default = "0.1 %", source = "our rule" },
  },
  work = function(job, house)
    local more = job.thickness and job.thickness > house.thick and house.more or Q "0 %"
    return { shrinks = job.shrinkage + more, off_inside = job.finish_inside, off_outside = job.finish_outside }
  end,
  proofs = { { "2.5 mm", given = { size = "US 6", thickness = "2.5 mm", shrinkage = "1.3 %", finish_inside = "0.08 mm", finish_outside = "0.10 mm" },
    expect = { shrinks = "1.4 %" }, within = "0.001 %", source = "1.3 and 0.1" } },
}
