-- want: OK "\"withheld\":[\"out\"]"
-- whole file
return recipe { title = "t", version = "1", level = 1, uses = { "stopped" },
  gives = { out = give.anything { "Out", optional = true } },
  work = function ()
    local r = use.stopped {}
    pcall(function () return table.sort({ r, r }, function (a, b) return a.charge < b.charge end) end)
    return { out = "went on" }
  end }
