cat > recipes/labour.lua <<'END'
return recipe {
  title = "Labour", version = "1.0.0", level = 1,
  asks = { labour = ask.money { "Labour" }, hours = ask.time { "Hours" }, w = ask.mass { "Wax" },
           kind = ask.choice { "Kind", options = { "wax", "resin" } } },
  gives = { total = give.money "Total" },
  work = function (job, house, sheet)
    local t = job.labour
    if t > 5 then t = t * 2 end
    local least = min(job.labour, job.hours)
    local both = job.labour * job.hours
    if job.kind > job.w then t = t * 3 end
    local said = job.labour .. " USD"
    sheet.clent:line("Total", t)
    return { total = (t + job.aa + os.time()):rounded("up", house.shre) + t:rounded("upp") }
  end,
  proofs = { { "one", given = { labour = "2 USD", hours = "1 h", w = "1 g", kind = "wax" }, expect = { total = "2 USD" }, source = "ours" } },
}
END
lemel check labour >&2
