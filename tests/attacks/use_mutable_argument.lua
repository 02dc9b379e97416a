-- want: BAD_RECIPE "cannot be changed"
-- whole file
return recipe { title = "t", version = "1", level = 1, uses = { "keeper" },
  work = function ()
    local t = { 1, 2 }
    local kept = use.keeper { thing = t }
    kept.kept[1] = 5
    return {}
  end }
