cat > flood.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 1, gives = {},
  work = function (job, house, sheet)
    for i = 1, 600 do sheet:note("lot-" .. i, "Lot " .. i .. " is weighed") end
    return {}
  end }
END
lemel run flood.lua
