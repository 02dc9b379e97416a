-- What metals a job can name: the house's own and those that come with lemel.

local colours = require "colours"
local gathered = require "gathered"
local table_of = require "alloys"

local FINE = { "Au", "Pt", "Pd", "Ag" }   -- what a name says first, and what the list goes by

-- The precious metal that an alloy is of, and how much of it there is.
local function fineness_of(metal)
  for _, symbol in ipairs(FINE) do
    local part = metal:fineness(symbol)
    if part:number "‰" >= 300 then return part, symbol end
  end
  for _, symbol in ipairs(FINE) do
    if not metal:fineness(symbol):is_zero() then return metal:fineness(symbol), symbol end
  end
  return nil
end

-- Below which a metal is no gold or silver of the trade: its colour is left out. Common practice, no source.
local LEAST = 300

local function colour_of(metal, fine)
  if not fine or fine:number "‰" < LEAST then return nil end
  local place = fine.metal == "Au" and fine:number "‰" <= 900 and colours.place(metal)
  return place and place.shade or colours.of(metal)
end

local function row_of(name, metal, from)
  local fine = fineness_of(metal)
  return { name = name, fineness = fine, colour = colour_of(metal, fine), solidus = metal.solidus, liquidus = metal.liquidus, from = from }
end

-- Whether a name has every word that was typed, in any order.
local function has_words(name, words)
  local low = name:lower()
  for word in pairs(words) do
    if not low:find(word) then return false end
  end
  return true
end

local function words_of(like)
  local words, left = {}, (like or ""):lower()
  while #left > 0 do
    local blank = left:find(" ")
    local word = blank and left:sub(1, blank - 1) or left
    if #word > 0 then words[word] = true end
    left = blank and left:sub(blank + 1) or ""
  end
  return words
end

local function place_of(row)
  for i, symbol in ipairs(FINE) do
    if row.fineness and row.fineness.metal == symbol then return i * 2000 - row.fineness:number "‰" end
  end
  return 10000
end

-- From where it begins to melt to where all of it is molten, as the house reads temperatures.
local function melting(m)
  if not m.solidus or not m.liquidus then return nil end
  local from, to = m.solidus:as_house("temperature", "1 Δ°C"), m.liquidus:as_house("temperature", "1 Δ°C")
  return tostring(from) == tostring(to) and tostring(to) or text.fill("{from} to {to}", { from = from, to = to })
end

-- The metals of one owner, under a heading: their names are long, and leave no room for a column that says whose they are.
local function write_those(from, heading, list, page)
  local rows = {}
  for _, m in ipairs(list) do
    if m.from == from then table.insert(rows, { m.name, m.fineness and m.fineness:nearest "0.1 ‰", m.colour, melting(m) }) end
  end
  if #rows == 0 then return end
  page:heading(heading)
  gathered.grid(page, { "Metal", "Fineness", "Colour", "Melts" }, rows)
end

return recipe {
  heads   = "Metals",
  title   = "Metals that a job can name",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 2,
  uses    = {},
  about   = "The house's stock and the table that comes with lemel: fineness, colour and melting range of each.",

  asks = {
    like = ask.text { "Only names with these words", optional = true },
  },
  allowances = {
    stock = ask.by_name { "The house's metals", of = ask.alloy { "A metal" }, optional = true },
  },
  gives = {
    metals = give.list { "The metals", of = give.record { "A metal", fields = {
      name = give.text "Its name", fineness = give.fineness { "Precious metal in it", optional = true }, colour = give.text { "Its colour", optional = true },
      solidus = give.temperature { "Begins to melt", optional = true }, liquidus = give.temperature { "Molten", optional = true }, from = give.text "Whose it is" } } },
  },

  work = function (job, house, sheet)
    local words, list, own = words_of(job.like), {}, house.stock or {}
    for name, metal in pairs(own) do
      if has_words(name, words) then table.insert(list, row_of(name, metal, "house")) end
    end
    for _, a in ipairs(table_of.alloys) do
      if has_words(a.name, words) and member(own, a.name) == nil then table.insert(list, row_of(a.name, alloy(a), "lemel")) end
    end
    table.sort(list, function (a, b)
      if place_of(a) ~= place_of(b) then return place_of(a) < place_of(b) end
      return a.name < b.name
    end)
    if #list == 0 then
      sheet.bench:text(text.fill("No metal has {like} in its name.", { like = job.like or "anything" }))
    else
      write_those("house", "The house's own, in the stock of house.json", list, sheet.bench)
      write_those("lemel", "Those that come with lemel", list, sheet.bench)
      sheet.bench:text "A melting range is as measured, or estimated from what is in the metal; a supplier's sheet beats both. An alloy that is not here goes into the stock of house.json."
    end
    return { metals = list }
  end,

  proofs = {
    { "the house's own comes first, and by its name", source = "composition as given; sterling: 925 by its name",
      given = { like = "sterling", stock = { ["sterling of our own"] = { composition = { Ag = "925 ‰", Cu = "75 ‰" }, solidus = "779 °C", liquidus = "893 °C" } } },
      expect = { metals = { { name = "Ag925 sterling", fineness = Q "925 ‰ Ag", colour = "silver", liquidus = Q "893 °C", from = "lemel" },
                            { name = "sterling of our own", from = "house" } } }, within = "0 %" },
    { "rich gold before poor, gold before silver", source = "order by fineness",
      given = { like = "cobalt" , stock = { ["cobalt 18K"] = { composition = { Au = "750 ‰", Co = "250 ‰" } }, ["cobalt 14K"] = { composition = { Au = "585 ‰", Co = "415 ‰" } } } },
      expect = { metals = { { name = "cobalt 18K" }, { name = "cobalt 14K" }, { name = "Pt950 cobalt" } } }, within = "0 %" },
  },
}
