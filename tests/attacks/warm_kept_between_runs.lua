-- want: OK "\"value\":\"1 none\""
-- whole file
-- Whatever the run before left in the recipe's own variables: each run finds them as they were declared.
local runs, kept, list = 0, nil, {}
return recipe { title = "Attack", version = "1", level = 1,
  gives = { out = give.text "Out" },
  work = function (job, house, sheet)
    runs = runs + 1
    local before = kept and kept.text or "none"
    kept = { text = "kept from run " .. tostring(runs), job = job, house = house, sheet = sheet }
    table.insert(list, kept)
    return { out = tostring(runs + #list - 1) .. " " .. before }
  end }
