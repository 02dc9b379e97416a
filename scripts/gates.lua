-- Stops that come from law, physics or health. After every recipe, whoever wrote it, each gate checks what the recipe was given
-- and what it returned, by name, once all names that it needs are there. A recipe may stop earlier and say it better; it cannot
-- leave a gate out.
--
-- A gate must not trust the shape of what it looks at: it reads each member as one that may not be there.

local members = require "members"
local of, named, measured = members.of, members.named, members.measured

-- Calls `see` with each lot that may go in.
local function each_offered(facts, see)
  for _, lot in ipairs(facts.lots) do
    if of(lot, "use") ~= "none" then see(lot) end
  end
end

-- The lots that weighings name, weighing by weighing.
local function weighed_of(facts)
  local called, list = {}, {}
  for _, lot in ipairs(facts.lots) do
    local name = of(lot, "name")
    if type(name) == "string" then
      called[name] = called[name] or {}
      table.insert(called[name], lot)
    end
  end
  for _, weighing in ipairs(facts.weigh) do
    for _, lot in ipairs(called[of(weighing, "name")] or {}) do table.insert(list, lot) end
  end
  return list
end

-- Calls `see` with each of them. All gates after a recipe are handed one table, so they are looked up once for all.
local looked_at, weighed = nil, nil
local function each_weighed(facts, see)
  if facts ~= looked_at then looked_at, weighed = facts, weighed_of(facts) end
  for _, lot in ipairs(weighed) do see(lot) end
end

local gates = {

  -- No calculation unmelts the wrong ring: metal that is not the studio's own needs a signed consent.
  { code = "consent",
    needs = { "lots", "weigh" },
    check = function(facts, sheet)
      each_weighed(facts, function(lot)
        local consent, owner = of(lot, "consent"), of(lot, "owner")
        if consent == false or consent ~= true and owner ~= nil and owner ~= "studio" then
          sheet:stop("consent", text.fill("{lot} is to be weighed out, but no consent to melt it is recorded",
                     { lot = of(lot, "name") }))
        end
      end)
    end },

  -- Nickel makes people ill who were promised none.
  { code = "nickel",
    needs = { "nickel_free", "composition" },
    check = function(facts, sheet)
      local nickel = facts.nickel_free == true and of(facts.composition, "Ni")
      if type(nickel) == "fineness" and not nickel:is_zero() then
        sheet:stop("nickel", text.fill("{nickel} nickel would be in it; any share above 0 breaks a nickel-free promise",
                   { nickel = nickel }))
      end
    end },

  -- What is struck must be lawful where the piece goes, for the metal that the job describes.
  { code = "mark-above-lawful",
    needs = { "stamp", "body", "body_fineness" },
    either = { "destination", "place" },
    reads = { "parts", "marks", "solder", "solder_fineness" },
    check = function(facts, sheet)
      if type(facts.stamp) ~= "string" or type(facts.body_fineness) ~= "fineness" or type(facts.body) ~= "quantity" or facts.stamp == "no mark" then
        return
      end
      local mark_law = require "mark_law"
      local goes_to = require "places".destination(facts.destination, facts.place)
      if type(goes_to) ~= "string" then return end
      local place = mark_law.place(goes_to)
      for i, group in ipairs(require "pieces".by_metal(facts)) do
        local stamp = i == 1 and facts.stamp or "no mark"
        for _, marked in ipairs(type(facts.marks) == "list" and facts.marks or {}) do
          if i > 1 and of(marked, "symbol") == group.metal then stamp = of(marked, "stamp") end
        end
        if type(stamp) == "string" and stamp ~= "no mark" then
          local promise = place and mark_law.promise(place, group.metal, stamp, mark_law.article(facts, group))
          local code, why = "mark-above-lawful", text.fill("{stamp} is not a known mark for {place}", { stamp = stamp, place = goes_to })
          if promise then code, why = mark_law.forbidden(promise, facts, group) end
          if code then sheet:stop(code, why, { i == 1 and "stamp" or "marks" }) end
        end
      end
    end },

  -- A tax is what the law of the place says on that day, rounded as it allows; or the studio's own rate with its law.
  { code = "tax",
    needs = { "tax", "taxed", "place", "date" },
    reads = { "tax_per", "lines", "tax_free", "tax_place", "tax_rate", "tax_law", "tax_rounding", "tax_sale", "tax_apart" },
    check = function(facts, sheet)
      if type(facts.tax) ~= "money" or type(facts.taxed) ~= "money" or type(facts.date) ~= "moment" or type(facts.place) ~= "string" then
        return
      end
      local taxes, per, lines = require "taxes", facts.tax_per or "invoice", {}
      for _, line in ipairs(per == "line" and facts.lines or {}) do
        if not taxes.is_free(facts.tax_free, of(line, "label")) then table.insert(lines, line) end
      end
      local by_law, code, refused = taxes.reckon { place = facts.tax_place or facts.place, home = facts.place, date = facts.date,
        rate = facts.tax_rate, parts = facts.tax_parts, law = facts.tax_law, per = per, rule = facts.tax_rounding,
        sale = facts.tax_sale or "retail", apart = facts.tax_apart, base = facts.taxed, lines = lines }
      if not by_law then
        sheet:stop(code, refused)
      elseif not (by_law.tax - facts.tax):is_zero() then
        sheet:stop("tax", text.fill("The tax comes to {tax} on {taxed}, but by {law} it is {right}",
                   { tax = facts.tax, taxed = facts.taxed, law = by_law.law, right = by_law.tax }))
      end
    end },

  -- Gypsum that gets too hot gives off sulfur, which people breathe and the metal takes up. A mould that nobody knows counts as
  -- gypsum.
  { code = "kiln-ceiling",
    needs = { "mould", "program" },
    check = function(facts, sheet)
      local moulds = require "burnout".moulds
      local stands = moulds[facts.mould] or moulds.gypsum
      for _, step in ipairs(facts.program) do
        local to = of(step, "to")
        if type(to) == "temperature" and to > stands.kiln then
          sheet:stop("kiln-ceiling", text.fill("The kiln would go to {to}; a mould of {mould} withstands {most} at most",
                     { to = to, mould = facts.mould, most = stands.kiln }))
        end
      end
    end },

  -- Phosphate is not bonded by a gypsum cycle: it keeps ammonia and carbon, and may let the metal through.
  { code = "phosphate-cycle",
    needs = { "mould", "program" },
    check = function(facts, sheet)
      if facts.mould ~= "phosphate" then return end
      local moulds, hottest = require "burnout".moulds, nil
      for _, step in ipairs(facts.program) do
        local to = of(step, "to")
        if type(to) == "temperature" and (not hottest or to > hottest) then hottest = to end
      end
      if hottest and hottest <= moulds.gypsum.kiln then
        sheet:stop("phosphate-cycle", text.fill("The kiln would go to {to}: that is a cycle for gypsum. Phosphate goes to {from} to {most}, by its maker's sheet",
                   { to = hottest, from = moulds.phosphate.final, most = moulds.phosphate.kiln }))
      end
    end },

  -- Heat while nobody is there is reported: from when, until when, up to what. Most kiln fires are at night (HSE, Safe use of
  -- kilns in schools and craft studios); wax that drips on a hot floor lights by itself.
  { code = "unwatched",
    needs = { "program", "kiln" },
    reads = { "room", "sleep", "unattended_ceiling" },
    check = function(facts, sheet)
      local furnace, burnout = require "kiln", require "burnout"
      local program, top = {}, nil
      for i, step in ipairs(facts.program) do
        local s = { begins = of(step, "begins"), there = of(step, "there"), ends = of(step, "ends"), to = of(step, "to"), rate = of(step, "rate") }
        if type(s.begins) ~= "moment" or type(s.there) ~= "moment" or type(s.ends) ~= "moment" or type(s.to) ~= "temperature" then
          sheet:caution("unwatched", "The program does not say when each of its steps begins and ends, so it is not known who is there: stay near the kiln while it is hot")
          return
        end
        program[i], top = s, max(top or s.to, s.to)
      end
      if #program == 0 then return end
      if not facts.sleep then
        sheet:caution("unwatched", text.fill("The house sets no unattended hours (sleep): the kiln is hot from {from} to {to}, up to {t}. Stay near it all that time",
                      { from = program[1].begins, to = program[#program].ends, t = top }))
        return
      end
      local hottest = nil
      for i, s in ipairs(furnace.unwatched(program, facts.room or Q "20 °C", facts.sleep)) do
        hottest = max(hottest or s.up_to, s.up_to)
        sheet:caution("unwatched-" .. i, text.fill("Nobody is there from {from} to {to}, and the kiln is hot, up to {up_to}. Keep everything that burns away from it; fit a separate cut-out, and an alarm for smoke and carbon monoxide",
                      { from = s.from, to = s.to:time_of_day(), up_to = s.up_to }))
      end
      if hottest and hottest > burnout.wax_lights and not facts.unattended_ceiling then
        sheet:confirm("night-heat", text.fill("The kiln goes up to {t} while nobody is there, but the house sets no ceiling for that (unattended_ceiling). From {wax} on dripping wax ignites by itself. Set a ceiling, and the plan stays below it if it can",
                      { t = hottest, wax = burnout.wax_lights:as_house("temperature", "1 Δ°C") }))
      end
    end },

  -- Steam for too long breaks the mould down, and a steamed flask that goes into a cold kiln cracks.
  { code = "steam",
    needs = { "load", "program" },
    reads = { "steam_time" },
    check = function(facts, sheet)
      local steam, steamed = require "burnout".steam, false
      for _, flask in ipairs(facts.load) do steamed = steamed or of(flask, "dewax") == "steam" end
      if not steamed then return end
      if type(facts.steam_time) == "quantity" and facts.steam_time > steam.most then
        sheet:stop("steam-time", text.fill("Steam for {t}; {most} at most, or the mould gets water marks and breaks down", { t = facts.steam_time, most = steam.most }))
      end
      local first = facts.program[1] and of(facts.program[1], "to")
      if type(first) == "temperature" and (first < steam.kiln_from - steam.near or first > steam.kiln_to + steam.near) then
        sheet:stop("steam-kiln", text.fill("Steamed flasks go into a kiln at {from} to {to}, but this program goes to {t} first", { from = steam.kiln_from:as "°C":nearest "1 Δ°C", to = steam.kiln_to:as "°C":nearest "1 Δ°C", t = first }))
      end
    end },

  -- Metal hotter than the mould withstands breaks it down while it is poured; where somebody sets a furnace for metal that is
  -- near it, somebody must have checked the mould.
  { code = "metal-too-hot",
    needs = { "mould", "pour_at" },
    reads = { "furnace_at", "metal" },
    check = function(facts, sheet)
      if type(facts.pour_at) ~= "temperature" then return end
      local verdict, why = require "burnout".too_hot(facts.mould, facts.pour_at, type(facts.metal) == "alloy" and facts.metal or nil)
      if verdict == "stop" then
        sheet:stop("metal-too-hot", why)
      elseif verdict == "ask" and facts.furnace_at then
        sheet:confirm("metal-too-hot", why)
      end
    end },

  -- Metal that is no hotter than its flask never freezes there in time: one of the two temperatures is in the wrong unit.
  { code = "flask-too-hot",
    needs = { "pour_at" },
    reads = { "flask_at", "flask_wanted" },
    check = function(facts, sheet)
      for _, name in ipairs { "flask_at", "flask_wanted" } do
        local flask = of(facts, name)
        if type(flask) == "temperature" and type(facts.pour_at) == "temperature" and flask >= facts.pour_at then
          return sheet:stop("flask-too-hot", text.fill("The flask would be at {flask} and the metal at {at}: metal is poured hotter than its flask. Is one of them in the wrong unit?",
                     { flask = flask, at = facts.pour_at }))
        end
      end
    end },

  -- Platinum and palladium take up carbon from a graphite crucible and turn brittle.
  { code = "graphite",
    needs = { "metal" },
    either = { "crucible_name", "use_crucible", "crucible_material" },
    reads = { "crucibles" },
    check = function(facts, sheet)
      local name = facts.crucible_name or facts.use_crucible
      local material = facts.crucible_material or of(named(facts.crucibles, name), "material")
      if type(facts.metal) ~= "alloy" or type(material) ~= "string" then return end
      local verdict, why = require "crucibles".against(material, facts.metal)
      if verdict == "stop" then sheet:stop("graphite", why) end
    end },

  -- A furnace that is set higher than it goes never gets there, or burns out.
  { code = "furnace-most",
    needs = { "furnace_at" },
    reads = { "furnace_most", "furnaces", "furnace_name", "use_furnace" },
    check = function(facts, sheet)
      local most = facts.furnace_most or of(named(facts.furnaces, facts.furnace_name or facts.use_furnace), "most")
      if type(facts.furnace_at) ~= "temperature" or type(most) ~= "temperature" then return end
      if facts.furnace_at > most then
        sheet:stop("furnace-most", text.fill("The furnace would be set to {at}, but it only goes to {most}", { at = facts.furnace_at, most = most }))
      end
    end },

  -- Under vacuum the air presses the closed end of the mould in: where it gives way, metal runs into table, hose and pump.
  -- Without an altitude the air is that of sea level.
  { code = "blind-end",
    needs = { "placed" },
    reads = { "end_stop", "altitude" },
    check = function(facts, sheet)
      local mould_end = require "mould_end"
      local limit = type(facts.end_stop) == "quantity" and min(facts.end_stop, mould_end.MOST) or Q "750 kPa"
      local air = mould_end.air_at(type(facts.altitude) == "quantity" and facts.altitude or nil)
      if not pcall(ipairs, facts.placed) then return end
      for i, p in ipairs(facts.placed) do
        local top, across, nth = measured(p, "top", Q "0 mm"), measured(p, "diameter", Q "0 mm"), #facts.placed > 1 and "-" .. i or ""
        if top and across and across > Q "0 mm" then
          local words = { top = top, across = across, tree = of(p, "tree") or "tree", flask = of(p, "flask") or "", limit = limit,
                          least = mould_end.least(air, across, limit):as "mm":up_to "0.1 mm" }
          if top <= Q "0 mm" then
            sheet:stop("tall-tree" .. nth, text.fill("The {tree} is taller than flask {flask}: {top} left above it. Take a taller flask, or cut the stem", words))
          elseif mould_end.stress(air, across, top) > limit then
            words.bears = mould_end.stress(air, across, top):as "kPa":up_to "1 kPa"
            sheet:stop("blind-end" .. nth, text.fill("{top} of mould above the {tree} in flask {flask}, {across} wide: the vacuum blows the end out, and metal runs into table and pump. "
              .. "Stress in it {bears}, at most {limit}; it needs {least}. Take a taller flask, or cut the stem", words))
          end
        end
      end
    end },

  -- A furnace is lit, and a mould poured, with the charge that was calculated, and with metal and flask as hot as they may be.
  { code = "charge-light", needs = { "light", "charge", "record" }, reads = { "weigh_window", "crucible_room", "metal" }, check = function(facts, sheet) require "pour_gate".guard_charge("light", facts, sheet) end },
  { code = "charge-go", needs = { "go", "charge", "record" }, reads = { "weigh_window", "crucible_room", "metal" }, check = function(facts, sheet) require "pour_gate".guard_charge("go", facts, sheet) end },
  { code = "readings", needs = { "go", "record", "metal", "mould" }, reads = { "metal_reading", "flask_reading", "liquidus" }, check = function(facts, sheet) require "pour_gate".guard_readings(facts, sheet) end },

  -- Resin does not run out with steam: it swells, cracks the mould, and the crack lets metal out.
  { code = "steam-resin",
    needs = { "load" },
    check = function(facts, sheet)
      for _, flask in ipairs(facts.load) do
        if of(flask, "pattern") == "resin" and of(flask, "dewax") == "steam" then
          sheet:stop("steam-resin", text.fill("{flask} holds resin and is to be steamed: dry it in the kiln", { flask = of(flask, "name") or "a flask" }))
        end
      end
    end },

  -- A melt larger than its crucible runs over, on hot bricks and on people.
  { code = "crucible-capacity",
    needs = { "charge", "melt_volume", "crucible_room" },
    check = function(facts, sheet)
      if type(facts.melt_volume) ~= type(facts.crucible_room) then return end
      if facts.melt_volume > facts.crucible_room then
        sheet:stop("crucible-capacity", text.fill("The melt is {volume}, but the crucible holds only {room}",
                   { volume = facts.melt_volume, room = facts.crucible_room }))
      end
    end },

  -- Cadmium boils off below every gold melt, and its fume kills. From 0.01 % a metal part may not be sold as jewellery:
  -- Regulation (EC) 1907/2006 (REACH), Annex XVII, entry 23.
  { code = "cadmium-melt",
    needs = { "metal", "charge" },
    check = function(facts, sheet)
      if type(facts.metal) ~= "alloy" then return end
      local cadmium = facts.metal:fineness "Cd"
      if cadmium >= Q "0.1 ‰ Cd" then
        sheet:stop("cadmium-melt", text.fill("There is cadmium in the metal ({cadmium}): it is not melted here, it goes to a refiner", { cadmium = cadmium }))
      end
    end },

  -- A ring that is sized goes under the torch with all that is in its old joints. Old silver solder is 16 to 25 % cadmium and
  -- gives off its fume above 320 °C: HSE Engineering Information Sheet 31.
  { code = "torch",
    needs = { "size_now", "grows_by" },
    reads = { "metal", "old_solder" },
    check = function(facts, sheet)
      if facts.grows_by:is_zero() then return end
      local metal = type(facts.metal) == "alloy" and facts.metal:fineness "Cd"
      if facts.old_solder == "cadmium" or metal and metal >= Q "0.1 ‰ Cd" then
        sheet:stop("cadmium-torch", "There is cadmium in this ring: do not use a torch on it. Cut out the old joint cold, or leave it; send the pieces to a refiner")
      end
      sheet:caution("old-joint", "Old joints: cadmium fume gives no warning and kills days later; flux gives off fluoride. Good ventilation, never bend over the flame. Fever or a tight chest within a day: hospital, say cadmium")
      sheet:caution("pickle", "Pickle: quench first, then pickle, never hot metal into it; goggles, copper or plastic tongs, lid on. Hollow rings hold pickle and spit it at the next torch")
    end },

  -- The same for a lot that goes into a charge; while what to weigh out waits for something else, for each that may.
  { code = "cadmium-lot",
    needs = { "lots" },
    reads = { "weigh", "target" },
    check = function(facts, sheet)
      if not (facts.weigh or facts.target) then return end   -- no charge: pieces as they came in, say
      (facts.weigh and each_weighed or each_offered)(facts, function(lot)
        local metal = of(lot, "metal")
        if (type(metal) == "alloy" or type(metal) == "assay") and metal:fineness "Cd" >= Q "0.1 ‰ Cd" then
          sheet:stop("cadmium-lot", text.fill("There is cadmium in {lot} ({cadmium}): it is not melted here, it goes to a refiner", { lot = of(lot, "name"), cadmium = metal:fineness "Cd" }))
        end
      end)
    end },

  -- A stone that meets what it cannot withstand is lost, and heat or a bath meets all of the piece: the person at work is warned
  -- of every stone, whatever a recipe says. An unknown stone is kept from everything.
  { code = "stone-care",
    needs = { "stones", "stones_mass" },
    check = function(facts, sheet)
      local gems = require "gems"
      local cares = require "gathered".remarks "Stones"
      for i, stone in ipairs(facts.stones) do
        local kind = of(stone, "kind")
        local never, risky = {}, {}
        if type(kind) == "string" then never, risky = gems.care(kind, of(stone, "treatment")) end
        if #never + #risky > 0 then
          cares.add("stone-care", i, text.fill("{kind}: {never}{both}{risky}.{unknown}", { kind = kind,
            never = #never > 0 and "never " .. table.concat(never, ", ") or "", both = #never > 0 and #risky > 0 and "; " or "",
            risky = #risky > 0 and "at risk in " .. table.concat(risky, ", ") or "",
            unknown = gems.kind_of(kind) and "" or " It is in no table here: this holds until somebody who knows it says otherwise" }))
        end
      end
      cares.write(function(code, words) sheet:caution(code, words) end)
    end },

  -- A stone as wide as the metal that should hold it falls out, or cuts the band in two.
  { code = "seat",
    needs = { "stones", "stones_mass" },
    check = function(facts, sheet)
      for i, stone in ipairs(facts.stones) do
        local across, seat = of(stone, "width") or of(stone, "length"), of(stone, "seat")
        if type(across) == "quantity" and type(seat) == "quantity" and across >= seat then
          sheet:stop("seat-" .. i, text.fill("{kind}: {across} across does not sit in metal of {seat}. Widen the seat, or take a smaller stone", { kind = of(stone, "kind"), across = across, seat = seat }))
        end
      end
    end },

  -- Plating baths poison: cyanide at once when acid meets it, rhodium salts by an allergy that stays.
  { code = "bath",
    needs = { "bath" },
    reads = { "bath_acid", "stones", "efficiency_found" },
    check = function(facts, sheet)
      local baths = require "baths"
      for _, caution in ipairs(baths.cautions(facts)) do sheet:caution(caution.code, caution.text) end
      for i, stone in ipairs(facts.stones or {}) do
        local kind = of(stone, "kind")
        local words = type(kind) == "string" and baths.cleaning(kind, of(stone, "treatment"))
        if words then sheet:caution("stone-cleaning-" .. i, words) end
      end
    end },

  -- Acid beside cyanide, a bath that eats a stone, nickel under a promise of none, a layer that cracks, a current that is
  -- far from what the bath takes. Whether acid or cyanide is near is never taken for granted.
  { code = "layer",
    needs = { "bath" },
    reads = { "bath_acid", "bath_nickel", "acid_near", "cyanide_near", "undercoat", "stones", "nickel_free", "base_metal", "flat", "layer_fineness", "coat_thickness", "amperes", "surface" },
    check = function(facts, sheet)
      for _, reason in ipairs(require "baths".against(facts)) do sheet:stop(reason.code, reason.text) end
    end },

}

local facts = require "facts"
local all = {}
for i, gate in ipairs(gates) do all[i] = facts.held(gate) end
return { gates = all, kinds = facts.kinds }
