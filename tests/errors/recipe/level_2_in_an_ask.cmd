cat > recipes/tin.lua <<'E'
return recipe { title = "Tin", version = "1.0.0", level = 1,
  asks = { rate = ask.price { "Rate", per = "h" }, name = ask.text { "Name", default = "tin" } },
  allowances = { rates = ask.by_name { "Rates", of = ask.price { "Rate", per = "h" }, default = { bench = "60 USD/h" }, source = "ours" } },
  gives = { n = give.text "Name" },
  work = function (job, house)
    local given = { per = job.rate, default = { house.rates } }
    return { n = job.name:words() .. #given }
  end,
  proofs = { { "p", given = { rate = "60 USD/h" }, expect = { n = "TIN0" }, source = "this test" } } }
E
lemel check -q tin
