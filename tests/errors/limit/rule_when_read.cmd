printf 'while true do end\nreturn rule "widen" { version = "1.0.0", work = function () end }\n' > recipes/rule_widen.lua
lemel run oversize rings='[{"name":"a","size":"US 6","width":"7 mm"}]' -q
