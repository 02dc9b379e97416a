-- want: OK "\"withheld\":[\"out\"]"
-- whole file
-- The figure that is withheld is read in every way there is; none may go on.
return recipe { title = "t", version = "1", level = 1, uses = { "stopped" },
  gives = { out = give.anything { "Out", optional = true } },
  work = function ()
    local r = use.stopped {}
    pcall(function () return r.charge end)
    return { out = "went on" }
  end }
