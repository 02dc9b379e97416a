-- Every piece leaves in a case; what the post takes comes on top when it is sent.
return rule "more_lines" {
  title = "Case and post", version = "1.0.0", licence = "CC0-1.0",
  asks = { sent = ask.yes_no { "It is sent, not collected", default = false, source = "nobody said so" } },
  allowances = {
    case = ask.money { "A case", default = "12 USD", source = "our rule" },
    post = ask.money { "Post, insured", default = "18 USD", source = "our rule" },
  },
  work = function(job, house)
    local lines = { { label = "Case", amount = house.case } }
    if job.sent then table.insert(lines, { label = "Post, insured", amount = house.post }) end
    return { lines = lines }
  end,
  proofs = { { "sent", given = { so_far = "500 USD", making = "300 USD", date = "2026-11-24", piece = "A ring", time = "2 h", sent = true },
    expect = { lines = { { amount = "12 USD" }, { amount = "18 USD" } } }, source = "the two allowances" } },
}
