-- want: OK
-- whole file
-- A record with a withheld member cannot be told to another recipe.
return recipe { title = "t", version = "1", level = 1, uses = { "stopped" },
  gives = { out = give.anything { "Out", optional = true } },
  work = function ()
    local r = use.stopped {}
    local ok = pcall(use.stopped, r)
    return { out = ok }
  end }
