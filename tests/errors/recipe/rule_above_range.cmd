cp -R "$(dirname "$0")/../../../examples" e && mkdir e/recipes && cd e
printf 'return rule "sprues" { version = "1.0.0",\n  work = function(job) return { sprue_metal = job.usual_mass * 1000 } end,\n}\n' > recipes/rule_sprues.lua
lemel run jobs/ear-cuff.json -q >/dev/null
