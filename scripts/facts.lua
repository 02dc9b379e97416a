-- What the gates mean by a name. Recipes share these names, and a gate that met another thing under one of them (shares
-- written as texts, a temperature in a sentence) would see nothing and let it pass. So each gate is held to this table:
-- what it reads is of the kind that is written here, all the way down, or the gate stops.
--
-- A kind is a word; a list { list = KIND }; a record { record = { name = KIND } }, in which a name that ends in "!" must
-- be there; the shares of an alloy, metal by metal; or anything, where a gate looks only whether it is there.

-- What `type` calls a kind, and for quantities a unit that tells one dimension from another.
local PLAIN = { text = "string", yes_no = "boolean", alloy = "alloy", fineness = "fineness", money = "money", moment = "moment",
  temperature = "temperature", time_of_day = "time of day", melt = { "alloy", "assay" } }
local MEASURED = { mass = "g", length = "mm", area = "mm2", volume = "mm3", time = "s", pressure = "Pa", ratio = "%", current = "A" }

local WORDS = { text = "a text", yes_no = "yes or no", alloy = "an alloy", fineness = "a fineness", money = "money", moment = "a moment",
  temperature = "a temperature", time_of_day = "a time of day", melt = "an alloy or an assay", mass = "a mass", length = "a length", area = "an area",
  volume = "a volume", time = "a time", pressure = "a pressure", ratio = "a ratio", current = "a current" }

local lot = { list = { record = { ["name!"] = "text", owner = "text", consent = "yes_no", metal = "melt" } } }
local stones = { list = { record = { ["kind!"] = "text", treatment = "text", width = "length", length = "length", seat = "length" } } }
local facts = {
  lots = lot, weigh = { list = { record = { ["name!"] = "text" } } },
  nickel_free = "yes_no", composition = "shares", metal = "alloy",
  stamp = "text", place = "text", body = "mass", body_fineness = "fineness", solder = "mass", solder_fineness = "fineness",
  parts = { list = { record = { mass = "mass", fineness = "fineness" } } },
  marks = { list = { record = { ["symbol!"] = "text", ["stamp!"] = "text" } } },
  tax = "money", taxed = "money", date = "moment", tax_place = "text", tax_rate = "ratio", tax_law = "text", tax_per = "text",
  tax_rounding = "text", tax_sale = "text", tax_apart = "yes_no", tax_free = { list = "text" },
  lines = { list = { record = { ["label!"] = "text" } } },
  mould = "text", pour_at = "temperature", furnace_at = "temperature", flask_at = "temperature", flask_wanted = "temperature",
  program = { list = { record = { ["to!"] = "temperature", begins = "moment", there = "moment", ends = "moment" } } },
  load = { list = { record = { name = "text", dewax = "text", pattern = "text" } } }, steam_time = "time",
  kiln = "anything", room = "temperature", sleep = { record = { ["from!"] = "time_of_day", ["to!"] = "time_of_day" } }, unattended_ceiling = "temperature",
  crucible_name = "text", use_crucible = "text", crucible_material = "text", crucibles = { list = { record = { ["name!"] = "text", material = "text" } } },
  furnace_name = "text", use_furnace = "text", furnace_most = "temperature", furnaces = { list = { record = { ["name!"] = "text", most = "temperature" } } },
  placed = { list = { record = { ["top!"] = "length", ["diameter!"] = "length", tree = "text", flask = "text" } } },
  end_stop = "pressure", altitude = "length",
  light = "text", go = "text", charge = "mass", record = { list = { record = { what = "text", at = "moment" } } }, weigh_window = "ratio",
  melt_volume = "volume", crucible_room = "volume", metal_reading = "temperature", flask_reading = "temperature", liquidus = "temperature",
  now = "anything", change = "anything", old_solder = "text",
  stones = stones, stones_mass = "mass",
  -- Of these three only a plain no counts as one, so that anything else is as bad as a yes.
  bath = "text", bath_acid = "anything", bath_nickel = "yes_no", acid_near = "anything", cyanide_near = "anything", undercoat = "text",
  base_metal = "alloy", flat = { record = { metal = "alloy" } }, layer_fineness = "fineness", coat_thickness = "length",
  amperes = "current", surface = "area", efficiency_found = "ratio",
}

local odd -- it looks into lists and records, and so into itself

-- Walks what may be a record of ours or a plain table.
local function each(value, look)
  for name, one in pairs(value) do
    local path, wanted = look(name, one)
    if path then return path, wanted end
  end
end

local function odd_list(value, of, path)
  if type(value) ~= "list" and type(value) ~= "table" then return path, "a list" end
  return each(value, function(i, one)
    if type(i) ~= "number" then return path, "a list" end
    return odd(one, of, path .. "[" .. i .. "]")
  end)
end

local function odd_record(value, fields, path)
  if type(value) ~= "record" and type(value) ~= "table" then return path, "a record" end
  local had = {}
  local inner, wanted = each(value, function(name, one)
    had[name] = true
    local kind = fields[name] or fields[name .. "!"]
    if kind then return odd(one, kind, path .. "." .. name) end
  end)
  if inner then return inner, wanted end
  for name, kind in pairs(fields) do
    local bare = name:sub(1, #name - 1)
    if name == bare .. "!" and not had[bare] then return path .. "." .. bare, type(kind) == "table" and "a list" or kind end
  end
end

-- A share stands under the symbol of its own metal, so that none is called by another name.
local function odd_shares(value, path)
  if type(value) ~= "record" and type(value) ~= "table" then return path, "shares by metal" end
  return each(value, function(symbol, share)
    if type(share) ~= "fineness" or share.metal ~= symbol then return path .. "." .. symbol, "a fineness of " .. symbol end
  end)
end

-- Where the value is not of the kind, and what is needed there; nil where it is.
odd = function(value, kind, path)
  if kind == "anything" then return nil end
  if kind == "shares" then return odd_shares(value, path) end
  if type(kind) == "table" and kind.list then return odd_list(value, kind.list, path) end
  if type(kind) == "table" and kind.record then return odd_record(value, kind.record, path) end
  local unit = MEASURED[kind]
  if unit then
    if type(value) ~= "quantity" or not pcall(function() return value:as(unit) end) then return path, kind end
    return nil
  end
  for _, called in ipairs(type(PLAIN[kind]) == "table" and PLAIN[kind] or { PLAIN[kind] }) do
    if type(value) == called then return nil end
  end
  return path, kind
end

local function has_any(given, names)
  for _, name in ipairs(names) do
    if given[name] ~= nil then return true end
  end
  return #names == 0
end

-- The gate, held to the kinds of what it `needs`, and of what it `reads` where that is there. Of what it needs `either`,
-- one must be there.
local function held(gate)
  local check, names = gate.check, {}
  for _, list in ipairs { gate.needs, gate.reads or {}, gate.either or {} } do
    for _, name in ipairs(list) do
      assert(facts[name], "a gate reads what scripts/facts.lua does not know: " .. name)
      table.insert(names, name)
    end
  end
  return { code = gate.code, needs = gate.needs, check = function(given, sheet)
    if not has_any(given, gate.either or {}) then return end
    for _, name in ipairs(names) do
      local path, wanted = nil, nil
      if given[name] ~= nil then path, wanted = odd(given[name], facts[name], name) end
      if path then
        sheet:stop(gate.code, text.fill("The gate {gate} reads {path} as {wanted}, and it is not one: give it as that, or use another name if it means another thing",
                   { gate = gate.code, path = path, wanted = WORDS[wanted] or wanted }))
        return
      end
    end
    return check(given, sheet)
  end }
end

return { held = held }
