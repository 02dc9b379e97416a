cat > recipes/bench.lua <<'E'
return recipe {
  title = "Bench", version = "1.0.0", level = 1, uses = { "wire" },
  asks = {
    worked = ask.time { "Time at the bench" },
    wax = ask.mass { "Wax" },
    how = ask.choice { "How it is cast", options = { "vacuum", "spun" } },
    gold = ask.price { "Gold", example = "90 USD/g" },
    rings = ask.list { "Rings", of = ask.record { "A ring", fields = { mass = ask.mass { "Mass" } } } },
  },
  allowances = { rate = ask.price { "An hour" } },
  gives = { charged = give.time "Time charged" },
  work = function (j, house, sheet)
    local job, client = j, sheet.client
    local wax, how, cost = job.wax, job.how, j.worked * house.rate
    if job.wakx then wax = nil end
    if how == 3 then client:lin("How", how) end
    if how == "vacum" then sheet:stop("how", "Not so", { "chargd" }) end
    if job.wax > job.gold or j.wax == "2 g" then sheet.client:lin("Wax", j.wax) end
    if cost > 100 then client:line("Cost", j.worked:roundd "up") end
    for _, ring in ipairs(j.rings) do
      if ring.mass == 0 then client:line("Ring", ring.masss) end
    end
    local drawn = use.wire { fineness = "585 ‰", legnth = "1 m" }
    client:line("Wire", drawn.wieght)
    return { charged = j.worked + j.wax }
  end,
  proofs = {
    { "a", given = { worked = "61 g", how = "poured" }, expect = { charged = "75 g" }, source = "own" },
    { "b", given = { worked = "61 min" }, expect = { charged = "61 min" }, within = "1 g", sorce = "own" },
  },
}
E
lemel check bench
