-- The bench page from the weighed charge to the finished piece: what is foretold, and beside it the box for what the
-- scale or the kiln shows. Where a gate was not worked yet its line is a box as well.

local quenching = require "quenching"
local hazards = require "hazards"

-- `give` is what the gate is called among the gives: the two gates say the same word and are withheld apart.
local function gate(page, label, verdict, give, record)
  if verdict then page:line(label, verdict, { of = give, record = record, big = true }) else page:box(label, record) end
end

-- `facts`: charge, weighed, light, melt_at, pour_at, flask_wanted, flask_hold, expected_gauge, go; nil where not known.
local function before(page, facts)
  page:heading "Before the furnace is lit"
  hazards.molten(page)
  hazards.crucible(page)
  hazards.damp(page)
  hazards.burn(page)
  if facts.weighed then page:line("Charge as weighed", facts.weighed) else page:line("Charge, at least", facts.charge) end
  gate(page, "LIGHT THE FURNACE", facts.light, "light", "lit")
  if facts.melt_at then page:line("Furnace to", facts.melt_at) end
  page:heading "Before the pour"
  if facts.flask_wanted then page:line("Flask wanted at", facts.flask_wanted, { record = "flask" }) end
  page:line("Flask held, at least", facts.flask_hold, { record = "flask held" })
  if facts.expected_gauge then page:line("Vacuum expected", facts.expected_gauge, { record = "gauge" }) end
  if facts.pour_at then page:line("Pour at", facts.pour_at, { record = "metal" }) end
  gate(page, "POUR", facts.go, "go", "poured")
end

-- The empty box, or what should be read beside it.
local function due(page, label, value, record)
  if value then page:line(label, value, { record = record }) else page:box(label, record) end
end

-- When the flask goes into the water: minutes, the clock once it is poured, and the sign that counts before them.
local function quench(page, q, from, until_)
  if q.colour == "stones in place" then
    return page:text "Stones are cast in place: no quench. Let the flask go cold by itself."
  elseif not q.from then
    if #q.asks == 0 then page:text(text.fill("Nothing says how {colour} is quenched: ask who sold the metal.", { colour = q.colour })) end
    return
  end
  page:line("Quench, after the pour", text.fill("{from} to {to}", q), { big = true })
  if from then page:line("That is", text.fill("{from} to {to}", { from = from:time_of_day(), to = until_:time_of_day() }), { big = true }) end
  page:text(quenching.sign .. ".")
  if q.orders_at then
    page:text(text.fill("Promptly: half way into this mould it is at {below} about {orders_at} after the pour, good to a factor of 1.3. Red gold that cools slowly below that turns brittle, and the ring breaks at its first sizing.",
      { below = quenching.orders_below, orders_at = q.orders_at }))
  end
end

-- `facts`: quench (what quenching.plan gave), quench_from and quench_until as moments, tree, sound, melt_loss, finish_loss.
local function after(page, facts)
  page:heading "After the pour"
  hazards.hot_flask(page)
  hazards.spent(page)
  page:text(text.fill("Hold the suction for {a} to {b}.", { a = Q "2 min", b = Q "4 min" }))   -- common practice, no source
  quench(page, facts.quench, facts.quench_from, facts.quench_until)
  hazards.acid(page)
  page:text "Pickle: 80 to 100 g of sodium bisulfate a litre, 60 to 70 °C, 5 to 15 min; no iron in it. Rinse, dry, then weigh."   -- common practice, no source
  due(page, "Tree, clean and dry", facts.tree, "tree")
  due(page, "Castings, cut off; sound ones weigh", facts.sound, "raw casting")
  page:box("Button and sprues", "button")
  page:box("Filings of the saw", "saw lemel")
  page:box("After emery", "after emery")
  page:box("Finished, without stones", "finished")
  if facts.melt_loss then page:line("Lost in the melt", facts.melt_loss) end
  if facts.finish_loss then page:line("Lost in finishing", facts.finish_loss) end
end

return { before = before, after = after }
