-- Guard by solder: 18 kt that will be soldered is alloyed to 753, unsoldered to 751; 14 kt always to 587, whatever the
-- customer's country.

local EIGHTEEN, FOURTEEN = { ["18K"] = true, ["750"] = true }, { ["14K"] = true, ["585"] = true }

return rule "target" {
  title = "Guard by solder", version = "2.0.0", licence = "CC0-1.0",
  allowances = {
    soldered_18 = ask.fineness { "18 kt that will be soldered", default = "753 ‰ Au", source = "our rule" },
    plain_18    = ask.fineness { "18 kt without solder", default = "751 ‰ Au", source = "our rule" },
    any_14      = ask.fineness { "14 kt", default = "587 ‰ Au", source = "our rule" },
  },

  work = function(job, house)
    if job.mark and EIGHTEEN[job.mark] then return { alloy_to = job.soldered and house.soldered_18 or house.plain_18 } end
    if job.mark and FOURTEEN[job.mark] then return { alloy_to = house.any_14 } end
    return { alloy_to = job.target }
  end,

  proofs = {
    { "18 kt to be soldered", given = { mark = "18K", soldered = true }, expect = { alloy_to = "753 ‰ Au" }, source = "the rule as it is spoken" },
    { "18 kt without solder", given = { mark = "750", soldered = false }, expect = { alloy_to = "751 ‰ Au" }, source = "the rule as it is spoken" },
    { "14 kt without solder too", given = { mark = "14K", soldered = false, target = "585 ‰ Au" }, expect = { alloy_to = "587 ‰ Au" }, source = "the rule as it is spoken" },
    { "another mark is as the job says", given = { mark = "22K", soldered = false, target = "917 ‰ Au" }, expect = { alloy_to = "917 ‰ Au" }, source = "the rule says nothing of it" },
  },
}
