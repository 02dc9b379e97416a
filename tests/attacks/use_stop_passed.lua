-- want: OK "\"withheld\":[\"out\"]"
-- whole file
return recipe { title = "t", version = "1", level = 1, uses = { "stopped" },
  gives = { out = give.anything { "Out", optional = true } },
  work = function ()
    local r = use.stopped {}
    pcall(function () return use.stopped { wax = r.charge } end)
    return { out = "went on" }
  end }
