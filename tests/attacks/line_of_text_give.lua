-- want: BAD_RECIPE "is not what the recipe gives for it"
-- whole file
-- Tried: GO printed for a give that says WAIT
-- Held by: the agreement of lines: texts are the same or not
return recipe { title = "t", version = "1", level = 1, gives = { verdict = give.text "Pour" },
  work = function (job, house, sheet)
    sheet.bench:line("Pour", "GO", { of = "verdict" })
    return { verdict = "WAIT" }
  end }
