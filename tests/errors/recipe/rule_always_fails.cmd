cat > recipes/rule_widen.lua <<'E'
return rule "widen" { version = "1.0.0", work = function () error("not a ring of ours") end }
E
lemel prove -q oversize 2>&1 | tail -5 >&2
lemel prove -q oversize >/dev/null
