printf 'return rule "hour" { version = "1.0.0", work = function(job) return { charged = job.worked } end }\n' > recipes/rule_hours.lua; lemel prove rule_hours
