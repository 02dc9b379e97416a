-- When a flask goes into the water: by the metal and not by its name, by the flask, and by a sign that needs no clock.

local colours = require "colours"

local PRACTICE = "common practice, no source"

-- Minutes from the pour to the water. Nickel white cracks when it is shocked; longer does it no harm.
local usual = {
  yellow              = { from = Q "8 min",  to = Q "12 min", source = PRACTICE },
  ["nickel white"]    = { from = Q "15 min", to = Q "20 min", source = PRACTICE .. ": longer does no harm" },
  ["palladium white"] = { from = Q "10 min", to = Q "15 min", source = PRACTICE },
  silver              = { from = Q "10 min", to = Q "15 min", source = PRACTICE,
                          wide = Q "4 in", wide_from = Q "15 min", wide_to = Q "20 min", wide_source = "15 to 20 min for sterling in a 4 x 8 in flask: a supplier's bench sheet" },
}

-- The sign that counts before any minute: dull in a shadow is about 480 °C (a bench account; red is first seen in the dark
-- at 525 °C, Draper point, from memory).
local SIGN = "Only once the button no longer glows, not even in a shadow"
local DULL = Q "480 °C"

-- Red gold orders below 408 to 410 °C and turns brittle (J. C. Kraut and W. B. Stern, Gold Bulletin 33(2), 2000): it has
-- to be in the water before. That takes enough of both metals, 330 to 900 parts of gold: judgement, no source.
local ORDERS = Q "410 °C"
local GOLD_LEAST, GOLD_MOST = 330, 900

-- Minutes until the mould has cooled to 410 and to 480 °C half way to its centre, for a flask of 63.5 mm and its
-- temperature at the pour; and how many times as long another width takes. Computed: heat conducted outwards in a long
-- cylinder in still air at 25 °C, 0.39 W/(m·K), 0.32 mm2/s, emissivity 0.8, 8 W/(m2·K), the metal's own heat left out.
-- Good to a factor of 1.3 either way.
local COOLING = { { 410, 0, 0 }, { 420, 2.15, 0 }, { 430, 2.88, 0 }, { 450, 4.06, 0 }, { 480, 5.55, 0 }, { 510, 6.87, 3.07 }, { 540, 8.06, 4.39 },
                  { 580, 9.49, 5.88 }, { 620, 10.78, 7.20 }, { 660, 11.95, 8.39 }, { 700, 13.02, 9.47 }, { 735, 13.89, 10.34 } }
local WIDTHS = { { 38.1, 0.452, 0.442 }, { 50.8, 0.703, 0.697 }, { 63.5, 1, 1 }, { 76.2, 1.340, 1.350 }, { 88.9, 1.722, 1.747 }, { 101.6, 2.145, 2.187 },
                 { 127, 3.115, 3.200 }, { 152.4, 4.244, 4.384 } }
local SURE = 1.3
local SOLID = Q "2 min"        -- sooner the button may still be soft: common practice, no source (2 to 4 min under vacuum)

-- The two figures of a table at x, straight between its rows.
local function read_off(rows, x)
  local i = 2
  while i < #rows and x > rows[i][1] do i = i + 1 end
  local a, b = rows[i - 1], rows[i]
  local share = (x - a[1]) / (b[1] - a[1])
  return a[2] + share * (b[2] - a[2]), a[3] + share * (b[3] - a[3])
end

-- Minutes until the mould is at 410 °C, and until it is at 480. Hotter than the last row counts as that row, and outside
-- the widths the shorter time is taken: the earlier is the safe one.
local function cools_in(diameter, temperature)
  local first = WIDTHS[1]
  local d = diameter:number "mm"
  local late, dull = read_off(COOLING, max(min(temperature:number "°C", COOLING[#COOLING][1]), COOLING[1][1]))
  local late_by, dull_by = read_off(WIDTHS, max(d, first[1]))
  local narrow = d < first[1] and (d / first[1]) * (d / first[1]) or 1
  return late * late_by * narrow * Q "1 min", dull * dull_by * narrow * Q "1 min"
end

-- Whether a metal is red gold that orders: "yes", "perhaps" in the zone between the colours, or nil.
local function orders(metal)
  local found, gold = colours.place(metal), metal:fineness "Au":number "‰"
  if not found or gold < GOLD_LEAST or gold > GOLD_MOST then return nil end
  local between = found.other and (found.family == "rose" or found.other == "rose")
  return between and "perhaps" or found.family == "rose" and "yes" or nil
end

-- A temperature for a sentence, as the house reads it.
local function degrees(t) return t:as "°C":as_house("temperature", "1 Δ°C") end

-- The window of red gold: from when the button is dull until before the mould orders, a factor of 1.3 early.
local function red_window(q, words, diameter, temperature)
  local function ask(code, sentence) table.insert(q.asks, { code = code, text = text.fill(sentence, words) }) end
  if not diameter or not temperature then
    return ask("width", "{metal}: the quench of red gold depends on how fast its mould cools, but the flask's width or temperature is not known: no minutes can be given. Give both")
  end
  local late, dull = cools_in(diameter, temperature)
  q.orders_at = late:as "min":nearest "0.1 min"
  q.from, q.to = max(dull, SOLID):as "min":up_to "0.5 min", (late / SURE):as "min":down_to "0.5 min"
  words.late, words.flask, words.dull, words.solid = q.orders_at, degrees(temperature), degrees(DULL), q.from
  if temperature < DULL then
    ask("cool-flask", "{metal} is red gold in a flask of {flask}: half way into the mould it is at {orders}, where red gold turns brittle, about {late} after the pour, good to a factor of 1.3. Pour into a flask of {dull} or hotter, or be at the water in time")
  elseif q.to < q.from then
    ask("no-time", "{metal} is red gold and the flask cools too fast: at {orders}, where it turns brittle, about {late} after the pour, good to a factor of 1.3, and the button is not solid before {solid}. Take a wider or hotter flask")
  end
  q.from = min(q.from, q.to)
end

-- How a flask is quenched: { colour, from, to, orders_at, cracks, asks }, minutes after its pour; nil where there is no
-- quench, or nothing is known of it. `said` is what somebody set: a colour, or stones in place. Each of `asks` is
-- { code, text }. Metal, diameter and temperature may be nil.
local function plan(metal, said, diameter, temperature)
  local family = metal and colours.of(metal)
  local red = metal and orders(metal)
  local q = { colour = said or family, asks = {} }
  local words = { metal = metal and metal.name ~= "" and metal.name or "The metal", said = said }
  if red or said then words.orders = degrees(ORDERS) end
  if red then
    words.share = floor(colours.place(metal).share * 100 + 0.5) / 100
    words.limit = colours.limits.rose
  end
  if said == "stones in place" then
    if red or not metal then
      table.insert(q.asks, { code = "stones", text = text.fill(red and "{metal} may be red gold, which has to cool fast below {orders} or turns brittle; its stones have to cool slowly. Set them after the casting, or take an alloy with more silver"
        or "Stones are cast in place, but the metal is not named: red gold would have to cool fast. Name the metal", words) })
    end
    return q
  end
  q.cracks = family == "nickel white" and said ~= nil and said ~= family
  if red == "yes" and said and said ~= "rose" then
    table.insert(q.asks, { code = "red", text = text.fill("{metal} is to be quenched as {said}, but by its copper it is rose (silver and zinc against copper {share}, rose below {limit}: a fitted rule). Cooled slowly below {orders} it turns brittle", words) })
  elseif red == "perhaps" and not said then
    q.colour = "rose"
    table.insert(q.asks, { code = "between", text = text.fill("{metal} is between rose and yellow (silver and zinc against copper {share}, rose below {limit}: a fitted rule). It is quenched as rose here, which keeps it from turning brittle. If you know better, set its colour", words) })
  end
  if metal and metal.quench then   -- its supplier's sheet
    q.from, q.to = metal.quench:low(), metal.quench:high()
    return q
  end
  if not q.colour then return q end
  if q.colour == "rose" then
    if red or said then red_window(q, words, diameter, temperature)
    else q.from, q.to = usual.yellow.from, usual.yellow.to end   -- red by its copper, and not gold enough to turn brittle
    return q
  end
  local wait = usual[q.colour]
  if not wait then return q end
  local wide = wait.wide and diameter and diameter >= wait.wide
  q.from, q.to = wide and wait.wide_from or wait.from, wide and wait.wide_to or wait.to
  if diameter and temperature then   -- a large hot flask still glows at the usual time
    local _, dull = cools_in(diameter, temperature)
    local lasts = q.to - q.from
    q.from = max(q.from, dull:as "min":up_to "1 min")
    q.to = max(q.to, q.from + lasts)
  end
  return q
end

-- Asks what has to be asked of a quench; `name` sets flasks of one load apart.
local function ask_all(q, name, sheet, withheld)
  for _, a in ipairs(q.asks) do sheet:confirm("quench-" .. a.code .. (name and "-" .. name or ""), a.text, withheld) end
end

return { plan = plan, ask_all = ask_all, cools_in = cools_in, usual = usual, sign = SIGN, orders_below = ORDERS, dull_at = DULL, sure = SURE, solid = SOLID }
