-- Moulds, steam and burnout cycles: what is published and what is practice.

local colour_of = require "colours".of

local checked = "2026-11-24"
local MAKER = "a maker's 6, 8 and 12 hour cycles, quoted on a trade discussion page"

-- What a mould withstands: the kiln it may be burnt out in, and the metal that may be poured into it. What it is mixed with, and
-- for phosphate where its burnout has to end, up to where a hold dries it, and how long it sets before the heat.
local moulds = {
  gypsum = { kiln = Q "735 °C", metal = Q "1175 °C", asks = Q "1100 °C", liquid = "De-ionised water",
             source = "top hold 732 °C in " .. MAKER .. "; metal: at 1175 °C gypsum begins to break down (Casting 24K microalloyed gold, technical article); 14 kt palladium white was cast in it without a reaction (G. Normandeau, Metal/mold reactions with white golds, 1997, abstract), so from 1100 °C on it is asked about" },
  phosphate = { kiln = Q "1000 °C", metal = Q "1500 °C", liquid = "Its maker's liquid, diluted as the maker's sheet says", final = Q "870 °C", dry = Q "300 °C", sets = Q "45 min",
                source = "final burnout 870 to 1000 °C, dried by a hold near 250 to 300 °C: from memory, unverified; sets 30 to 45 min (dental lecture notes on phosphate-bonded investment). Its maker's sheet decides",
                liquid_source = "the maker's special liquid, that liquid with water, or water: as its sheet says (ISO 11245, extract)" },
}
local mould_names = { "gypsum", "phosphate" }

-- Sulfur: calcium sulfate and silica become calcium silicate from about 900 °C on (Decomposition of gypsum bonded investments,
-- abstract); platinum and palladium are poured 200 to 800 °C above it, and sulfides are among their poisons (a maker of laboratory
-- platinum). Gold and silver are in it so hot for seconds only. Platinum in phosphate is poured at 1850 to 2050 °C: common
-- practice, no source; silica melts at 1713 °C: from memory, unverified. The limit of phosphate above is that of other metal.
local DECAYS = Q "900 °C"
local PLATINUM = { most = Q "2050 °C", silica = Q "1713 °C" }
-- "platinum" or "palladium" where half of the metal or more is that; else nil.
local function white_metal(metal)
  if metal:fineness "Pt":number "‰" >= 500 then return "platinum" end
  if metal:fineness "Pd":number "‰" >= 500 then return "palladium" end
end

-- A temperature for a sentence, as the house reads it.
local function degrees(t) return t:as "°C":as_house("temperature", "1 Δ°C") end

-- Why platinum and palladium, of any alloy and however hot, are not poured into that mould; nil where they may be, and for any
-- other metal. An unknown mould counts as gypsum.
local function never_into(mould, metal)
  local white = metal and (moulds[mould] or moulds.gypsum) == moulds.gypsum and white_metal(metal)
  return white and text.fill("{first} is not poured into {mould}, which gives off sulfur from about {decays} on, with silica: the mould breaks down, and the sulfur makes {metal} brittle", {
    first = white:sub(1, 1):upper() .. white:sub(2), metal = white, mould = mould, decays = degrees(DECAYS) }) or nil
end

-- What metal of that temperature does to a mould: "stop" where it breaks down, "ask" where somebody has to decide, and the
-- reason in words; else nil. An unknown mould counts as gypsum.
local function too_hot(mould, at, metal)
  local stands = moulds[mould] or moulds.gypsum
  local never = never_into(mould, metal)
  if never then return "stop", never end
  local is_platinum = metal and stands == moulds.phosphate and white_metal(metal) == "platinum"
  if not is_platinum and at < stands.metal and not (stands.asks and at >= stands.asks) then return nil end
  local words = { at = degrees(at), mould = mould, most = degrees(stands.metal) }
  if is_platinum then
    words.most, words.silica = degrees(PLATINUM.most), degrees(PLATINUM.silica)
    if at > PLATINUM.most then
      return "stop", text.fill("{at} is more than the {most} at which platinum is poured into phosphate-bonded investment", words)
    end
    return "ask", text.fill("{at} is above the {silica} at which silica melts: platinum this hot needs an investment made for it, used as its maker says, and a cool flask; no other phosphate withstands it", words)
  end
  if at >= stands.metal then
    return "stop", text.fill("{at} is too hot for {mould}, which breaks down from {most} on", words)
  end
  return "ask", text.fill("{at} is near the {most} at which {mould} breaks down: only in a clean white mould, burnt out to the end, or take phosphate-bonded investment", words)
end

-- Silica swells all at once here; a mould that is driven through it faster cracks.
local inversions = {
  { name = "cristobalite", from = Q "220 °C", to = Q "275 °C", at_most = Q "5 Δ°C/min" },
  { name = "quartz",       from = Q "563 °C", to = Q "583 °C", at_most = Q "5 Δ°C/min" },
}   -- cristobalite near 533 K, 220 to 275 °C by sample and direction (W. W. Schmahl and others, Z. Kristallogr. 201, 1992, and
    -- J. Appl. Cryst. 47, 2014, abstracts); quartz at 847 K (a Rietveld study, Acta Cryst. B, abstract), ten degrees to each
    -- side. 5 °C a minute is the slow heating in: Gypsum-bonded investment and dental precision casting II and IV (abstracts)

-- Steam: no longer than this, or the mould gets water marks and breaks down; then at once into a kiln that is already
-- hot (Casting gemstones set in wax with white gold, a refiner's technical page). That a flask may stand 10 min after the
-- steam: a maker's product specialist, quoted on a trade discussion page.
local steam = { most = Q "60 min", kiln_from = Q "275 °F", kiln_to = Q "300 °F", kiln = Q "142 °C", waits = Q "10 min",
                near = Q "2 Δ°C" }   -- 150 °C is 302 °F: as near as kilns are set

-- The hottest burnout for stones that are cast in place, in a powder that is made for it: the same page.
local stones_most = Q "1150 °F"

-- A hydrocarbon wax that drips on a floor as hot as this lights by itself: 264 °C (ECHA dossier, DIN 51794).
local wax_lights = Q "264 °C"

-- Steps as printed: so long at each setting, the way up to it included. The last is the casting temperature.
local published = {
  ["6 h"]  = { flask = "2.5 x 2.5 in", source = MAKER, steps = { { "300 °F", "2 h" }, { "700 °F", "1 h" }, { "1350 °F", "2 h" }, { "casting", "1 h" } } },
  ["8 h"]  = { flask = "3.5 x 4 in", source = MAKER, steps = { { "300 °F", "2 h" }, { "700 °F", "2 h" }, { "1350 °F", "3 h" }, { "casting", "1 h" } } },
  ["12 h"] = { flask = "4 x 8 in; resin of any size", source = MAKER,
               steps = { { "300 °F", "2 h" }, { "600 °F", "2 h" }, { "900 °F", "2 h" }, { "1350 °F", "4 h" }, { "casting", "2 h" } } },
}

local colours = { "yellow", "rose", "nickel white", "palladium white", "silver", "platinum", "palladium", "stones in place" }

-- Flask temperatures. Heavy, filigree: General casting tips for karat golds (a bench supplier's page), with white gold at
-- the high end; rings: common practice, no source.
local flasks = {
  heavy    = { from = Q "800 °F",  to = Q "1000 °F" },
  ring     = { from = Q "540 °C",  to = Q "620 °C" },
  filigree = { from = Q "1100 °F", to = Q "1300 °F" },
}
local sections = { "heavy", "ring", "filigree" }

-- Sterling: 800 to 1000 °F by the finest section (a question and answer on casting sterling), light work 510 to 621 °C (bench
-- statements on a trade discussion page). What of the first is for heavy work: common practice, no source.
local silver_flasks = {
  heavy    = { from = Q "800 °F",  to = Q "900 °F" },
  ring     = { from = Q "900 °F",  to = Q "1000 °F" },
  filigree = { from = Q "950 °F",  to = Q "1150 °F" },
}

-- What is usual for a section in metal of that colour.
local function usual_flask(section, colour) return (colour == "silver" and silver_flasks or flasks)[section] end

-- The flask's temperature for a section: the middle of what is usual, and its top for white golds.
local function flask_temperature(section, colour)
  local usual = usual_flask(section, colour)
  local white = colour:find "white" ~= nil
  return (white and usual.to or usual.from + (usual.to - usual.from) / 2):as "°C":nearest "5 Δ°C"
end

return { too_hot = too_hot, never_into = never_into, flasks = flasks, usual_flask = usual_flask, white_metal = white_metal, sections = sections, flask_temperature = flask_temperature, moulds = moulds, mould_names = mould_names, inversions = inversions, published = published,
         steam = steam, stones_most = stones_most, wax_lights = wax_lights, colours = colours, colour_of = colour_of, checked = checked }
