-- Moulds, burnout cycles and quench times: what is published and what is practice.

local colour_of = require "colours".of

local checked = "2026-11-24"
local PRACTICE = "common practice, no source"
local MAKER = "a maker's 6, 8 and 12 hour cycles, quoted on a trade discussion page"

-- What a mould stands: the kiln it may be burnt out in, and the metal that may be poured into it. What it is mixed with.
local moulds = {
  gypsum = { kiln = Q "735 °C", metal = Q "1175 °C", asks = Q "1100 °C", liquid = "De-ionised water",
             source = "top hold 732 °C in " .. MAKER .. "; metal: at 1175 °C gypsum begins to break down (Casting 24K microalloyed gold, technical article); 14 kt palladium white was cast in it without a reaction (G. Normandeau, Metal/mold reactions with white golds, 1997, abstract), so from 1100 °C on it is asked about" },
  phosphate = { kiln = Q "1000 °C", metal = Q "1500 °C", liquid = "Its maker's liquid, diluted as the maker's sheet says",
                source = "final burnout 870 to 1000 °C: from memory, unverified; its maker's sheet decides",
                liquid_source = "the maker's special liquid, that liquid with water, or water: as its sheet says (ISO 11245, extract)" },
}
local mould_names = { "gypsum", "phosphate" }

-- What metal of that temperature does to a mould: "stop" from where it breaks down, "ask" from where somebody must have
-- looked, and why in words; else nil. A mould that nobody knows counts as gypsum.
local function too_hot(mould, at)
  local stands = moulds[mould] or moulds.gypsum
  local words = { at = at, mould = mould, most = stands.metal }
  if at >= stands.metal then
    return "stop", text.fill("{at} is too hot for {mould}, which breaks down from {most} on", words)
  elseif stands.asks and at >= stands.asks then
    return "ask", text.fill("{at} is near the {most} at which {mould} breaks down: only in a clean white mould, burnt out to the end, or take phosphate-bonded investment", words)
  end
  return nil
end

-- Silica swells all at once here; a mould that is driven through it faster cracks.
local inversions = {
  { name = "cristobalite", from = Q "220 °C", to = Q "275 °C", at_most = Q "5 Δ°C/min" },
  { name = "quartz",       from = Q "563 °C", to = Q "583 °C", at_most = Q "5 Δ°C/min" },
}   -- cristobalite near 533 K, 220 to 275 °C by sample and direction (W. W. Schmahl and others, Z. Kristallogr. 201, 1992, and
    -- J. Appl. Cryst. 47, 2014, abstracts); quartz at 847 K (a Rietveld study, Acta Cryst. B, abstract), ten degrees to each
    -- side. 5 °C a minute is the slow heating in: Gypsum-bonded investment and dental precision casting II and IV (abstracts)

-- Steps as printed: so long at each setting, the way up to it included. The last is the casting temperature.
local published = {
  ["6 h"]  = { flask = "2.5 x 2.5 in", source = MAKER, steps = { { "300 °F", "2 h" }, { "700 °F", "1 h" }, { "1350 °F", "2 h" }, { "casting", "1 h" } } },
  ["8 h"]  = { flask = "3.5 x 4 in", source = MAKER, steps = { { "300 °F", "2 h" }, { "700 °F", "2 h" }, { "1350 °F", "3 h" }, { "casting", "1 h" } } },
  ["12 h"] = { flask = "4 x 8 in; resin of any size", source = MAKER,
               steps = { { "300 °F", "2 h" }, { "600 °F", "2 h" }, { "900 °F", "2 h" }, { "1350 °F", "4 h" }, { "casting", "2 h" } } },
}

-- Minutes from the pour to the water. Red gold goes in while it is well above 410 °C, where gold and copper begin to
-- order (J. C. Kraut and W. B. Stern, Gold Bulletin 33(2), 2000) and turn brittle; nickel white cracks when shocked.
local quench = {
  yellow            = { from = Q "8 min",  to = Q "12 min", source = PRACTICE },
  rose              = { from = Q "4 min",  to = Q "6 min",  source = PRACTICE .. " (elsewhere 2 to 5 min)", promptly = true },
  ["nickel white"]  = { from = Q "15 min", to = Q "20 min", source = PRACTICE .. ": longer does no harm" },
  ["palladium white"] = { from = Q "10 min", to = Q "15 min", source = PRACTICE },
  silver            = { from = Q "10 min", to = Q "15 min", source = PRACTICE },
}
local colours = { "yellow", "rose", "nickel white", "palladium white", "silver", "stones in place" }

-- How a metal is quenched when somebody `said` it, else by its colour; and whether it would crack if it were.
local function quenched_as(metal, said)
  local colour = colour_of(metal)
  return said or colour, colour == "nickel white" and said ~= nil and said ~= colour and said ~= "stones in place"
end

-- Flask temperatures. Heavy, filigree: General casting tips for karat golds (a bench supplier's page), with white gold at
-- the high end; rings: common practice, no source.
local flasks = {
  heavy    = { from = Q "800 °F",  to = Q "1000 °F" },
  ring     = { from = Q "540 °C",  to = Q "620 °C" },
  filigree = { from = Q "1100 °F", to = Q "1300 °F" },
}
local sections = { "heavy", "ring", "filigree" }

-- The flask's temperature for a section: the middle of what is usual, and its top for white golds.
local function flask_temperature(section, colour)
  local usual = flasks[section]
  local white = colour:find "white" ~= nil
  return (white and usual.to or usual.from + (usual.to - usual.from) / 2):as "°C":nearest "5 Δ°C"
end

return { too_hot = too_hot, flasks = flasks, sections = sections, flask_temperature = flask_temperature, moulds = moulds, mould_names = mould_names, inversions = inversions, published = published,
         quench = quench, colours = colours, colour_of = colour_of, quenched_as = quenched_as, checked = checked }
