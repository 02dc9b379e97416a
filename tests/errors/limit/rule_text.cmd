cat > recipes/rule_widen.lua <<'END'
return rule "widen" { version = "1.0.0",
  work = function (job)
    local t = "a" while true do t = t .. t end
    return { sizes_more = 0, of = "US" }
  end }
END
lemel run oversize rings='[{"name":"a","size":"US 6","width":"7 mm"}]' -q
