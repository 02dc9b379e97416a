cp -R "$(dirname "$0")/../../../examples" e && mkdir e/recipes && cd e
printf 'return rule "credit" { version = "1.0.0",\n  work = function(job) return { at = job.fine_price * 10.1, part = job.share } end,\n}\n' > recipes/rule_credit.lua
lemel run jobs/red-ring.json -q >/dev/null
