sed 's/"1.0.0"/"1.0"/' recipes/cast.lua > r.lua; lemel check -q r.lua
sed 's/"1.0.0"/"1.0"/; s/level *= 1/level = 2/' recipes/cast.lua > r.lua; lemel check -q r.lua
printf 'return rule "widen" { version = "1", work = function () return { sizes_more = 0, of = "US" } end }\n' > recipes/rule_widen.lua; lemel check -q rule_widen
