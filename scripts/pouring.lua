-- The bench page from the weighed charge to the finished piece: what is expected, and beside it the box for what the
-- scale or the kiln shows. Where a gate was not calculated yet its line is a box as well.

local quenching = require "quenching"
local hazards = require "hazards"

-- Metal above its liquidus: how far it is poured, and the window of the cited source, which melt and pour share. Vacuum
-- casting is given 100 to 200 °F (General casting tips for karat golds, a bench supplier's page), that is 56 to 111 °C.
local CASTING_TIPS = "General casting tips for karat golds (a bench supplier's page): 100 to 200 °F with vacuum"
local superheat_least = ask.temperature_difference { "Poured above the liquidus by, at least", default = "100 Δ°F", source = CASTING_TIPS }
local superheat_most = ask.temperature_difference { "Poured above the liquidus by, at most", default = "200 Δ°F", source = CASTING_TIPS }
local superheat = ask.temperature_difference { "Poured above the liquidus by", default = "75 Δ°C", from = "0 Δ°C", to = "300 Δ°C",
                                               source = "56 to 111 °C with vacuum: General casting tips for karat golds (a bench supplier's page)" }
local melt_superheat = ask.temperature_difference { "Furnace set above the liquidus by", default = "125 Δ°C", from = "0 Δ°C", to = "400 Δ°C",
                                                    source = "common practice, no source (100 to 150)" }

-- What silver does in the fire. Oxygen: about 20 volumes near the melting point (two encyclopaedias); boric acid, skimmed before
-- the pour, and dull grey before the water: supplier's bench sheet, trade discussion. Fire stain: an encyclopaedia, a museum's
-- conservator. Silicon of 0.1 to 0.3 % makes a film between the grains (measured, on 935). The end at 779 °C: micrographs of 935.
local DEOXIDISERS = { "Si", "Ge" }
-- What is to be known of molten silver, as notes.
local function silver_notes(metal, sheet)
  sheet:note("silver-oxygen", "Molten silver takes up some 20 times its volume of oxygen and gives it back as it freezes, in pores: cover it with boric acid, skimmed off before the pour, keep the flame soft and pour no hotter than it must be")
  if metal:fineness "Cu":number "‰" > 0 then
    sheet:note("fire-stain", "Fire stain: copper oxidises under the skin, red to purple, deeper with each heating, and a test of the skin reads high over it. Keep air away with flux; what has come is ground off or stripped")
  end
  for _, symbol in ipairs(DEOXIDISERS) do
    if not metal:fineness(symbol):is_zero() then
      return sheet:note("deoxidised", "A deoxidised alloy: heat, flask and quench by its maker's data sheet, and add no deoxidiser to scrap that already has some: it turns brittle")
    end
  end
  sheet:note("silver-freezes", text.fill("A casting of silver with copper is wholly solid only at {end_at}, whatever its solidus: do not solder or reheat by that", { end_at = Q "779 °C":as_house("temperature", "1 Δ°C") }))
end

-- `give` is what the gate is called among the gives: the two gates say the same word and are withheld apart. Without a verdict
-- the boxes above it are still empty, and it is shut: `lemel record` says what is missing. `till`: until when the verdict holds.
local function gate(page, label, verdict, give, record, facts, charge, till)
  if verdict then page:tick(label, verdict, { of = give, record = record, since = facts.since, big = true, till = till })
  else page:tick(label, { of = give, record = record, since = facts.since, least = charge }) end
end

-- What the scale, the kiln and the gauge should show, each with its box. A line of a figure that is not known is a box.
-- `way`: its side of the metal account, where it is known whose the casting is.
local function due(page, label, value, record, metal, way)
  page:measure(label, value, { record = record, since = metal.since, kind = value == nil and "mass" or nil, fineness = metal.fineness, way = metal.goes_to and metal.fineness and way or nil, way_owner = metal.goes_to or metal.owner })
end

-- `facts`: since, when this round began where it is not the first (what was read before it is not shown), charge, weighed, light, melt_at, pour_at, flask_wanted, kiln_unit, flask_hold, blanked, seated, go, hold_until; nil
-- where not known.
local function before(page, facts)
  page:heading "Before the furnace is lit"
  hazards.say(page, { "molten", "crucible", "damp", "burn" })
  if facts.weighed then page:line("Charge as weighed", facts.weighed) elseif facts.light then page:line("Charge, at least", facts.charge) end
  gate(page, "LIGHT THE FURNACE", facts.light, "light", "lit", facts, facts.charge)
  if facts.melt_at then page:line("Furnace to", facts.melt_at) end
  page:heading "Before the pour"
  if facts.flask_wanted then page:measure("Flask", facts.flask_wanted, { record = "flask", since = facts.since, also = facts.kiln_unit }) end
  page:measure("Flask held", nil, { least = facts.flask_hold, record = "flask held", since = facts.since })
  local function gauge(label, range, record)
    page:measure(label, nil, { least = range.least, most = range.most, record = record, since = facts.since, kind = not (range.least or range.most) and "vacuum" or nil })
  end
  gauge("Gauge, pad covered", facts.blanked, "blanked")
  page:box("Valve shut 1 min", "blanked after", { kind = "vacuum", since = facts.since })
  gauge("Gauge, flask seated", facts.seated, "gauge")
  if facts.pour_at then page:measure("Metal", facts.pour_at, { record = "metal", since = facts.since }) end
  page:text "Cover the pad with a plate. A pop, or a gauge that jumps: the blind end has gone. Do not pour."   -- a trade discussion page on flask blow-out
  gate(page, "POUR", facts.go, "go", "poured", facts, nil, facts.hold_until)
  if facts.go and facts.hold_until then page:line("These readings hold until", facts.hold_until:time_of_day()) end
end

-- The same once it is over: what was recorded instead of what was wanted, and a box for what was not. `facts`: poured as a moment,
-- nil if not recorded; weighed, flask, held, blanked, gauge, metal as read; kiln_unit as before.
local function recorded(page, facts)
  page:heading "The pour, as recorded"
  hazards.say(page, { "molten", "damp" })
  if facts.weighed then page:line("Charge as weighed", facts.weighed) end
  local missing = {}
  local function was(label, value, record, kind, also)
    if value then page:line(label, value, { also = also }) else table.insert(missing, { label, record, { kind = kind, since = facts.since } }) end
  end
  was("Flask", facts.flask, "flask", "temperature", facts.kiln_unit)
  was("Flask held", facts.held, "flask held")
  was("Gauge, pad covered", facts.blanked, "blanked", "vacuum")
  was("Gauge, flask seated", facts.gauge, "gauge", "vacuum")
  was("Metal", facts.metal, "metal", "temperature")
  was("Poured at", facts.poured and facts.poured:time_of_day(), "poured")
  for _, m in ipairs(missing) do page:box(m[1], m[2], m[3]) end
end

-- When the flask goes into the water: minutes, the clock once it is poured, and the sign that counts before them.
local function quench(page, q, from, until_)
  if q.colour == "stones in place" then
    return page:text "Stones are cast in place: no quench. Let the flask go cold by itself."
  elseif not q.from then
    if #q.asks == 0 then page:text(text.fill("The quench for {colour} is not known: ask the supplier of the metal.", { colour = q.colour })) end
    return
  end
  page:tick("Quench, after the pour", { least = q.from, most = q.to, at = from, till = until_, big = true })
  page:text(quenching.sign .. ".")
  if q.orders_at then
    page:text(text.fill("Promptly: half way into this mould it is at {below} some {early} to {late} after the pour. Red gold that cools slowly below that turns brittle, and the ring breaks at its first sizing.",
      { below = quenching.orders_below:as_house("temperature", "1 Δ°C"), early = (q.orders_at / quenching.sure):down_to "1 min", late = (q.orders_at * quenching.sure):up_to "1 min" }))
  end
end

-- `facts`: quench (what quenching.plan gave), quench_from and quench_until as moments, tree, sound, melt_loss, finish_loss, unfound
-- (of that, what is not in the filings); owner and fineness of the metal, and goes_to, whose it is in the metal account;
-- piece_apart: its pieces go to several owners, and are entered one by one.
-- What is filed and weighed on other days goes onto the page `piece`.
local function after(page, piece, facts)
  page:heading "After the pour (filing and finishing: see the piece sheet)"
  hazards.say(page, { "hot_flask", "spent" })
  page:text(text.fill("Keep the vacuum on for {a} to {b}.", { a = Q "2 min", b = Q "4 min" }))   -- common practice, no source
  quench(page, facts.quench, facts.quench_from, facts.quench_until)
  hazards.say(page, { "acid" })
  -- common practice, no source
  page:text(text.fill("Pickle: 80 to 100 g of sodium bisulfate a litre, {from} to {to}, 5 to 15 min; no iron in it. Rinse, dry, then weigh.", {
    from = Q "60 °C":as_house("temperature", "1 Δ°C"), to = Q "70 °C":as_house("temperature", "1 Δ°C") }))
  due(page, "Tree, clean and dry", facts.tree, "tree", facts)
  due(page, "Castings, cut off", facts.sound, "raw casting", facts)
  due(page, "Button and sprues", nil, "button", facts, "here")
  due(page, "Crucible beads", nil, "beads from the crucible", facts, "here")
  piece:heading "Filed and finished"
  due(piece, "Saw filings", nil, "saw lemel", facts, "here")
  due(piece, "After emery", nil, "after emery", facts)
  due(piece, "Finished, without stones", nil, "finished", facts, not facts.piece_apart and "piece" or nil)
  due(piece, "Filings", nil, "filings", facts, "here")
  if facts.melt_loss then page:line("Lost in the melt", facts.melt_loss) end
  if facts.finish_loss then page:line("Filed and polished off", facts.finish_loss) end
  if facts.unfound then page:line("Not found in the filings", facts.unfound) end
end

return { superheat = superheat, superheat_least = superheat_least, superheat_most = superheat_most, melt_superheat = melt_superheat, silver_notes = silver_notes,
         before = before, recorded = recorded, after = after }
