cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 1,
  gives = { a = give.mass "A" },
  work = function (job, house, sheet)
    local all = {}
    while true do
      local t = {}
      for i = 1, 1000 do t[i] = { i, i, i, i, i, i, i, i, i, i, i, i, i, i, i, i, i, i, i, i } end
      all[#all + 1] = t
    end
  end }
END
lemel run r.lua
