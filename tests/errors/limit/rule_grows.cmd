cat > recipes/rule_widen.lua <<'END'
return rule "widen" { version = "1.0.0",
  work = function (job)
    local t = {} while true do t[#t + 1] = { 1, 2, 3 } end
    return { sizes_more = 0, of = "US" }
  end }
END
lemel run oversize rings='[{"name":"a","size":"US 6","width":"7 mm"}]' -q
