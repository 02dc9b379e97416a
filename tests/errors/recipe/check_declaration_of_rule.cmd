cat > recipes/rule_deposit.lua <<'R'
return rule "deposit" { version = "1.0", licence = "CC0-1.0",
  asks = { price = ask.money { "Price again" }, friend = ask.yes_no { "A friend's", oder = 1 } },
  allowances = { small = ask.money { "Up to this", default = 200 } },
  gives = { deposit = give.money "Deposit" },
  proof = {},
  work = function (job, house) return { deposit = job.price < house.smal and job.prize or job.price / 2 } end }
R
lemel check rule_deposit
