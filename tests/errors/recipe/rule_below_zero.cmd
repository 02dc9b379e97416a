. "$(dirname "$0")/../stop/quote.sh"
printf 'return rule "deposit" { version = "1.0.0",\n  work = function(job) return { deposit = -job.price } end,\n}\n' > recipes/rule_deposit.lua
quote
