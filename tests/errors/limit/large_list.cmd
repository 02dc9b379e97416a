cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 1,
  gives = { a = give.mass "A" },
  work = function (job, house, sheet)
    local t = {}
    for i = 1, 1e7 do t[i] = i end
  end }
END
lemel run r.lua
