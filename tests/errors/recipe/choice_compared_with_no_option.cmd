cat >recipes/tin.lua <<'RECIPE'
return recipe { title = "T", version = "1.0.0", level = 1,
  asks = { nickel = ask.choice { "Reacts to nickel", options = { "no", "yes", "not asked" } } },
  allowances = { way = ask.choice { "How it is shared", options = { "mass", "count" }, default = "mass", source = "ours" } },
  gives = { n = give.whole "N" },
  work = function(job, house, sheet)
    local n = job.nickel == "not asked" and 1 or job.nickel == "not-asked" and 2 or 0
    if house.way ~= "volume" then n = n + 1 end
    return { n = n }
  end,
  proofs = { { "one", given = { nickel = "yes" }, expect = { n = 1 }, source = "arithmetic" } } }
RECIPE
lemel check recipes/tin.lua
