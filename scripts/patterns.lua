-- Patterns of wax or resin, and the metal that takes their place: the same volume, so masses go as densities.

local pattern = ask.record { "A pattern", apart = "name", fields = {
  name   = ask.text   { "What it is called" },
  wax    = ask.mass   { "Mass of one, in wax", optional = true, from = "0.001 g", to = "2 kg" },
  resin  = ask.mass   { "Mass of one, in resin", optional = true, from = "0.001 g", to = "2 kg" },
  volume = ask.volume { "Volume of one", optional = true, from = "0.1 mm3", to = "2 L" },
  count  = ask.whole  { "How many", default = 1, from = 1, to = 200, source = "one unless said" },
} }

local PATTERN = { "wax", "resin", "volume" }
local SPRUES = { "sprues", "sprue_volume", "tree_mass" }

-- The one of several figures that was given, or nil; two of them are an error. `at` leads to the record.
local function given_of(record, names, what, ...)
  local found
  for _, name in ipairs(names) do
    if record[name] and found then
      error(text.fill("{what} is given twice, as {a} and as {b}: give one of them", { what = what, a = found, b = name }), ...)
    end
    if record[name] then found = name end
  end
  return found
end

-- Everything that is missing is reported at once.
local function need_given(job)
  local missing = {}
  if not (job.patterns or given_of(job, PATTERN, "the pattern", "wax")) then
    table.insert(missing, 'the pattern is not given: give one of wax, resin, volume, as in "wax": "2.85 g"')
  end
  if not given_of(job, SPRUES, "the wax of the sprues", "sprues") then
    table.insert(missing, 'the wax of the sprues is not given: give one of sprues, sprue_volume, tree_mass, as in "sprues": "0.60 g"')
  end
  if #missing > 0 then error(table.concat(missing, "; "), "wax") end
end

-- Every pattern of a job with the raw casting of one (exact), whether they came as a list or as one.
local function castings(job, density, house)
  local list = job.patterns
  if list and (job.wax or job.resin or job.volume) then
    error("the patterns are given twice, as a list and as one: put the one into the list", "patterns")
  elseif list and #list == 0 then
    error('the list of patterns is empty: write one in it, as in "patterns": [{ "name": "ring", "wax": "2.85 g" }]', "patterns")
  end
  need_given(job)
  local out = {}
  for _, p in ipairs(list or { { name = "piece", wax = job.wax, resin = job.resin, volume = job.volume, count = 1 } }) do
    local what = "the pattern " .. p.name
    local how = given_of(p, PATTERN, what, "patterns", p.name)
    if not how then error(what .. ' is not given: give one of wax, resin, volume, as in "wax": "2.85 g"', "patterns", p.name) end
    local raw
    if how == "volume" then
      raw = p.volume * density
    else
      raw = p[how] * density / (how == "wax" and house.wax_density or house.resin_density)
    end
    table.insert(out, { name = p.name, count = p.count, how = how, raw = raw, wax = p.wax })
  end
  return out
end

-- The metal of the sprues: their wax weighed alone, or what the tree weighs more than base and pieces, or a volume.
local function sprues(job, castings, density, house)
  local how = given_of(job, SPRUES, "the wax of the sprues", "sprues")
  if how == "sprue_volume" then return job.sprue_volume * density end
  local wax = job.sprues
  if how == "tree_mass" then
    if not job.base_mass then error("the tree was weighed on its base: give base_mass, the base alone, as well", "tree_mass") end
    local pieces = Q "0 g"
    for _, c in ipairs(castings) do
      if not c.wax then error("the sprues follow from the tree only where every pattern was weighed in wax: weigh the sprues alone", "tree_mass") end
      pieces = pieces + c.wax * c.count
    end
    wax = job.tree_mass - job.base_mass - pieces
    if wax < Q "0 g" then
      error(text.fill("the tree ({tree}) weighs less than its base ({base}) and the pieces ({pieces})",
                      { tree = job.tree_mass, base = job.base_mass, pieces = pieces }), "tree_mass")
    end
  end
  return wax * density / house.wax_density
end

-- Carats and points weigh stones: wax that is written in them was read off the wrong scale, or the wrong line. In words, or
-- nil where every mass is in another unit.
local function in_carats(job)
  local masses = {}
  for _, name in ipairs { "wax", "resin", "sprues", "tree_mass", "base_mass" } do table.insert(masses, { what = name, mass = job[name] }) end
  for _, p in ipairs(job.patterns or {}) do table.insert(masses, { what = p.name, mass = p.wax or p.resin }) end
  local found = {}
  for _, m in ipairs(masses) do
    local written = m.mass and tostring(m.mass)
    if written and (written:find " ct" or written:find " point") then
      table.insert(found, text.fill("{what} {written}, which is {mass}", { what = m.what, written = written, mass = m.mass:as "g":nearest "0.001 g" }))
    end
  end
  return #found > 0 and table.concat(found, "; ") or nil
end

-- A casting is smaller than its wax. One figure of the house, for carving larger and for weighing the casting.
local metal_shrinkage = ask.ratio { "Of the casting against its wax, linear", from = "0 %", to = "5 %", default = "1.25 %",
  source = "common practice, no source (1.0 to 1.5 %); measure your own for each alloy and investment" }

return { pattern = pattern, metal_shrinkage = metal_shrinkage, castings = castings, sprues = sprues, in_carats = in_carats }
