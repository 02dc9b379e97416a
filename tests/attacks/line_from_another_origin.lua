-- want: BAD_RECIPE "but it is from"
-- whole file
-- Tried: a figure that a client says, printed as weighed here
-- Held by: the origin of the figure itself (check_from)
return recipe { title = "t", version = "1", level = 1, allowances = { loss = ask.mass { "Loss", default = "2 g", source = "none" } },
  work = function (job, house, sheet)
    sheet.bench:line("Loss", house.loss, { from = "weighed here" })
    return {}
  end }
