printf 'return rule "huors" { version = "1.0.0", work = function(job) return { charged = job.worked } end }\n' > recipes/rule_huors.lua; lemel recipes
