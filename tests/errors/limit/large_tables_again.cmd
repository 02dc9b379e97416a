cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 1,
  gives = { a = give.mass "A" },
  work = function (job, house, sheet)
    local t = {}
    for i = 1, 8192 do t[i + 0.5] = i end
    for i = 1, 1e9 do
      t[i + 0.5] = nil
      t[-i - 0.5] = 1
    end
  end }
END
lemel run r.lua --steps 200000
