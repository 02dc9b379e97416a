-- Members that may be missing, of a record of unknown shape: naming one that is missing would stop the recipe, so they are
-- looked up instead.

local of = member

-- The record of that name in a list, or an empty one.
local function named(list, name)
  for _, one in ipairs((type(list) == "list" or type(list) == "table") and list or {}) do
    if (type(one) == "record" or type(one) == "table") and of(one, "name") == name then return one end
  end
  return {}
end

-- A member that can be compared with `like`; nil where it is missing, or another recipe means something else by the name.
local function measured(record, name, like)
  local comparable, value = pcall(function()
    local v = of(record, name)
    return (v > like or v <= like) and v
  end)
  return comparable and value or nil
end

return { of = of, named = named, measured = measured }
