printf 'return rule "widen" {\n  version = "1.0.0",\n  work = function(job) end,\n}\n' > recipes/rule_widen.lua; lemel run oversize rings='[{"name":"a","size":"US 6","width":"7 mm"}]' -q
