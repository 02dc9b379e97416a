cat >recipes/tin.lua <<'RECIPE'
return recipe { title = "T", version = "1.0.0", level = 1, uses = { "need" }, asks = { when = ask.moment { "When" } },
  gives = { n = give.whole "N" },
  work = function(job, house, sheet)
    local list, settings = copy { 1 }, { copy = 1, sign = 2 }
    local made = quietly "need" { wax = "2 g" }
    return { n = #list + job.when:month() + settings.sign + (member(made, "charge"):sign()) }
  end,
  proofs = { { "one", given = { when = "2026-11-24" }, expect = { n = 15 }, source = "arithmetic" } } }
RECIPE
lemel check recipes/tin.lua
