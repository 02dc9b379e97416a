-- What the gates mean by a name. Recipes share these names, and a gate that met another thing under one of them (shares
-- written as texts, a temperature in a sentence) would see nothing and let it pass. So each gate is held to this table:
-- what it reads is of the kind that is written here, all the way down, or the gate stops.
--
-- A kind is a word; a list { list = KIND }; a record { record = { name = KIND }, due = { "name" } }, with what must be there;
-- the shares of an alloy, metal by metal; or anything, where a gate looks only whether it is there.

-- What `type` calls a kind, and for quantities a unit that tells one dimension from another.
local PLAIN = { text = "string", yes_no = "boolean", alloy = "alloy", fineness = "fineness", money = "money", moment = "moment",
  temperature = "temperature", time_of_day = "time of day", melt = { "alloy", "assay" } }
local MEASURED = { mass = "g", length = "mm", area = "mm2", volume = "mm3", time = "s", pressure = "Pa", ratio = "%", current = "A" }

local WORDS = { text = "a text", yes_no = "yes or no", alloy = "an alloy", fineness = "a fineness", money = "money", moment = "a moment",
  temperature = "a temperature", time_of_day = "a time of day", melt = "an alloy or an assay", mass = "a mass", length = "a length", area = "an area",
  volume = "a volume", time = "a time", pressure = "a pressure", ratio = "a ratio", current = "a current" }

local lot = { list = { record = { name = "text", owner = "text", consent = "yes_no", metal = "melt", use = "text" }, due = { "name" } } }
local stones = { list = { record = { kind = "text", treatment = "text", width = "length", length = "length", seat = "length" }, due = { "kind" } } }
local facts = {
  lots = lot, weigh = { list = { record = { name = "text" }, due = { "name" } } },
  target = "fineness", nickel_free = "yes_no", composition = "shares", metal = "alloy",
  stamp = "text", destination = "text", place = "text", body = "mass", body_fineness = "fineness", solder = "mass", solder_fineness = "fineness",
  parts = { list = { record = { mass = "mass", fineness = "fineness" } } },
  marks = { list = { record = { symbol = "text", stamp = "text" }, due = { "symbol", "stamp" } } },
  tax = "money", taxed = "money", date = "moment", tax_place = "text", tax_rate = "ratio", tax_law = "text", tax_per = "text",
  tax_rounding = "text", tax_sale = "text", tax_apart = "yes_no", tax_free = { list = "text" },
  lines = { list = { record = { label = "text" }, due = { "label" } } },
  mould = "text", pour_at = "temperature", furnace_at = "temperature", flask_at = "temperature", flask_wanted = "temperature",
  program = { list = { record = { to = "temperature", begins = "moment", there = "moment", ends = "moment" }, due = { "to" } } },
  load = { list = { record = { name = "text", dewax = "text", pattern = "text" } } }, steam_time = "time",
  kiln = "anything", room = "temperature", sleep = { record = { from = "time_of_day", to = "time_of_day" }, due = { "from", "to" } }, unattended_ceiling = "temperature",
  crucible_name = "text", use_crucible = "text", crucible_material = "text", crucibles = { list = { record = { name = "text", material = "text" }, due = { "name" } } },
  furnace_name = "text", use_furnace = "text", furnace_most = "temperature", furnaces = { list = { record = { name = "text", most = "temperature" }, due = { "name" } } },
  placed = { list = { record = { top = "length", diameter = "length", tree = "text", flask = "text" }, due = { "top", "diameter" } } },
  end_stop = "pressure", altitude = "length",
  light = "text", go = "text", charge = "mass", record = { list = { record = { what = "text", at = "moment" } } }, weigh_window = "ratio",
  melt_volume = "volume", crucible_room = "volume", metal_reading = "temperature", flask_reading = "temperature", liquidus = "temperature",
  size_now = "anything", grows_by = "length", old_solder = "text",
  stones = stones, stones_mass = "mass",
  -- Of these three only a plain no counts as one, so that anything else is as bad as a yes.
  bath = "text", bath_acid = "anything", bath_nickel = "yes_no", acid_near = "anything", cyanide_near = "anything", undercoat = "text",
  base_metal = "alloy", flat = { record = { metal = "alloy" } }, layer_fineness = "fineness", coat_thickness = "length",
  amperes = "current", surface = "area", efficiency_found = "ratio",
}

-- Each gate is held to its facts after each recipe, so each kind is made a check once, when this is loaded, and a path is
-- spelled only where something is odd: a check gives back the way to what is not of the kind, and what is needed there.
local check_of -- lists and records have checks of what is in them

local function plain_check(kind)
  local called = PLAIN[kind]
  if type(called) ~= "table" then
    return function(value) if type(value) ~= called then return "", kind end end
  end
  return function(value) if not contains(called, type(value)) then return "", kind end end
end

local function in_unit(value, unit) return value:as(unit) end

local function measured_check(kind)
  return function(value)
    if type(value) ~= "quantity" or not pcall(in_unit, value, MEASURED[kind]) then return "", kind end
  end
end

local function list_check(kind)
  local check = check_of(kind.list)
  return function(value)
    local called = type(value)
    if called ~= "list" and called ~= "table" then return "", "a list" end
    for i, one in ipairs(value) do
      local path, wanted = check(one)
      if path then return "[" .. i .. "]" .. path, wanted end
    end
    if called == "table" then -- a plain one may hold names, or have a hole
      for i, one in pairs(value) do
        if type(i) ~= "number" then return "", "a list" end
        local path, wanted = check(one)
        if path then return "[" .. i .. "]" .. path, wanted end
      end
    end
  end
end

-- The members of a record, in their order.
local function fields_of(kind)
  local fields = {}
  for name, inner in pairs(kind.record) do
    table.insert(fields, { name = name, check = check_of(inner), is_due = contains(kind.due or {}, name),
      wanted = type(inner) == "table" and "a list" or inner })
  end
  table.sort(fields, function(a, b) return a.name < b.name end)
  return fields
end

local function record_check(kind)
  local fields = fields_of(kind)
  return function(value)
    local called = type(value)
    if called ~= "record" and called ~= "table" then return "", "a record" end
    local missing = nil
    for i = 1, #fields do
      local field = fields[i]
      local one = member(value, field.name)
      if one ~= nil then
        local path, wanted = field.check(one)
        if path then return "." .. field.name .. path, wanted end
      elseif field.is_due then
        missing = missing or field
      end
    end
    if missing then return "." .. missing.name, missing.wanted end
  end
end

-- A share is stored under the symbol of its metal, so that no other name is used for it.
local function check_shares(value)
  if type(value) ~= "record" and type(value) ~= "table" then return "", "shares by metal" end
  for symbol, share in pairs(value) do
    if type(share) ~= "fineness" or share.metal ~= symbol then return "." .. symbol, "a fineness of " .. symbol end
  end
end

local function check_nothing() end

check_of = function(kind)
  if kind == "anything" then return check_nothing end
  if kind == "shares" then return check_shares end
  if type(kind) ~= "table" then return MEASURED[kind] and measured_check(kind) or plain_check(kind) end
  return kind.list and list_check(kind) or record_check(kind)
end

local checks = {}
for name, kind in pairs(facts) do checks[name] = check_of(kind) end

-- Which of the names that gates share were found to be of their kinds: all gates after a recipe are handed one table.
local looked_at, fits = nil, {}

-- The gate, held to the kinds of what it `needs`, and of what it `reads` where that is there. Of what it needs `either`,
-- one must be there. `odd` are those of its names whose kind the recipe's own declaration leaves open: the engine says which.
local function held(gate)
  local check, names = gate.check, {}
  for _, list in ipairs { gate.needs, gate.reads or {}, gate.either or {} } do
    for _, name in ipairs(list) do
      assert(facts[name], "a gate reads what scripts/facts.lua does not know: " .. name)
      table.insert(names, name)
    end
  end
  return { code = gate.code, needs = gate.needs, either = gate.either, names = names, check = function(given, sheet, odd)
    if given ~= looked_at then looked_at, fits = given, {} end
    for i = 1, #odd do
      local name = odd[i]
      local value = given[name]
      if value ~= nil and not fits[name] then
        local path, wanted = checks[name](value)
        if path then
          sheet:stop(gate.code, text.fill("The gate {gate} reads {path} as {wanted}, but it is not one: give it as that, or use another name if it means something else",
                     { gate = gate.code, path = name .. path, wanted = WORDS[wanted] or wanted }))
          return
        end
        fits[name] = true
      end
    end
    return check(given, sheet)
  end }
end

return { held = held, kinds = facts }
