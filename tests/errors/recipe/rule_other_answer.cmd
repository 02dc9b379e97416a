# A rule answers what its point asks for, under that name; and its file ends with a rule.
printf 'return rule "widen" {\n  version = "1.0.0",\n  work = function(job) return { minimum = Q "1 g" } end,\n}\n' > recipes/rule_widen.lua; lemel run oversize rings='[{"name":"a","size":"US 6","width":"7 mm"}]' -q
printf 'local x = 1\n' > recipes/rule_widen.lua; lemel run oversize rings='[{"name":"a","size":"US 6","width":"7 mm"}]' -q
