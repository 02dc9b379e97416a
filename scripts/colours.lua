-- The colour of a gold alloy, from what is in it. A name says little: alloys that are sold as yellow come out rose, and
-- the other way round.
--
-- The one number is the pale share: silver, and zinc at two and a half times its mass, against copper. Copper reddens,
-- silver makes gold pale and then green, and zinc takes out as much red as two to three times its mass of silver.
-- The rule is fitted, not published: to 58 alloys whose colour a source names, of which it places 54. The published idea
-- is only the ratio of silver to copper. It holds for gold with silver, copper and zinc; nickel, palladium and platinum
-- whiten, and the rule says nothing of them.

local ZINC = 2.5                      -- fitted: 2 to 2.5 place as many
local ROSE, GREEN = 0.37, 0.81        -- below the first rose or red, above the second green; the same fit
local NEAR = 0.03                     -- as near to a limit as this the fit does not say which; the 4N grade is 0.36

-- Finer names. From the usual compositions of the grades of ISO 8654 (5N 0.18, 4N 0.36, 3N 0.50, 1N 0.63, 2N 0.64, 0N 0.82).
local shades = { { "red", 0.25 }, { "pink or rose", ROSE }, { "yellow", 0.60 }, { "pale yellow", GREEN }, { "green-yellow", 0.95 }, { "green", 2 } }

-- A part of a metal in thousandths: read once a run.
local parts = {}
local function part(metal, symbol)
  local known = parts[metal] or {}
  parts[metal] = known
  if not known[symbol] then known[symbol] = metal:fineness(symbol):number "‰" end
  return known[symbol]
end

-- The pale share of gold that is not whitened, 0 for copper alone to 1 for silver alone; nil without either.
local function share_of(metal)
  local pale, copper = part(metal, "Ag") + ZINC * part(metal, "Zn"), part(metal, "Cu")
  if pale + copper <= 0 then return nil end
  return pale / (pale + copper)
end

-- The same; nil for whitened gold too.
local function pale_share(metal)
  if part(metal, "Ni") > 10 or part(metal, "Pd") > 30 or part(metal, "Pt") > 30 then return nil end
  return share_of(metal)
end

local function family_at(share) return share < ROSE and "rose" or share <= GREEN and "yellow" or "green" end

-- Where the rule places a metal: { share, family, shade, other }; nil where it says nothing. `other` is the family on the
-- far side of a limit that is too near to say which.
local function place(metal)
  local share = pale_share(metal)
  if not share then return nil end
  local found = { share = share, family = family_at(share) }
  for _, s in ipairs(shades) do
    found.shade = s[1]
    if share < s[2] then break end
  end
  if abs(share - ROSE) <= NEAR + 1e-9 then found.other = found.family == "rose" and "yellow" or "rose" end
  if abs(share - GREEN) <= NEAR + 1e-9 then found.other = found.family == "green" and "yellow" or "green" end
  return found
end

-- What a charge of a family, or of one of its shades, keeps to: between two pale shares, and out of the zone where the fit does not
-- say which.
local function short(share) return floor(share * 1000 + 0.5) / 1000 end   -- few digits: a charge is calculated exactly
local ROSE_MOST, YELLOW_LEAST, YELLOW_MOST, GREEN_LEAST = short(ROSE - NEAR), short(ROSE + NEAR), short(GREEN - NEAR), short(GREEN + NEAR)
local bands = {
  rose = { 0, ROSE_MOST }, red = { 0, 0.25 }, ["pink or rose"] = { 0.25, ROSE_MOST },
  yellow = { YELLOW_LEAST, YELLOW_MOST }, ["pale yellow"] = { 0.60, YELLOW_MOST },
  green = { GREEN_LEAST, 1 }, ["green-yellow"] = { GREEN_LEAST, 0.95 },
}
local band_names = { "rose", "red", "pink or rose", "yellow", "pale yellow", "green", "green-yellow" }

-- The band of a name, widened to include an alloy that is `like` the wanted one; or of that alloy's family alone. nil where the
-- rule says nothing.
local function band(named, like)
  local at = like and place(like)
  local found = bands[named or at and at.family]
  if not found then return nil end
  if named or not at then return { least = found[1], most = found[2], share = short((found[1] + found[2]) / 2), name = named } end
  local thousand = at.share * 1000
  return { least = min(found[1], floor(thousand) / 1000), most = max(found[2], ceil(thousand) / 1000), share = short(at.share), name = at.family }
end

-- White is by palladium or nickel: a charge has no less of it than the alloy by this much. Common practice, no source.
local WHITE_SHORT = 10
-- How much nickel or palladium makes this gold white, as a fineness; nil where it is not white.
local function whitener(like)
  for _, one in ipairs { { "Ni", 10 }, { "Pd", 30 } } do
    if part(like, one[1]) > one[2] and part(like, "Au") > 0 then
      return fineness(one[1], max(0, part(like, one[1]) - WHITE_SHORT) / 1000)
    end
  end
end

-- The metals that the rule compares, for craft.charge. Unnamed metal of a lot is taken to have the wanted colour: it neither
-- spoils a charge nor makes it good.
local function weights(share) return { Ag = 1, Zn = ZINC, unnamed = share }, { Ag = 1, Zn = ZINC, Cu = 1, unnamed = 1 } end

-- What a person may call it, and `of` answers.
local names = { "yellow", "rose", "nickel white", "palladium white", "silver", "platinum", "palladium" }

-- The colour that decides crucible and flask: white metals contaminate yellow ones, and nickel must be kept apart, whatever
-- anybody calls them. Then what somebody `said` decides, then what is in the metal. Above 900 parts of gold all is yellow, with a
-- red or green cast; green goes with yellow. The limits of the white metals: common practice, no source.
--     colours.of(alloy { composition = { Au = "750 ‰", Ag = "125 ‰", Cu = "125 ‰" } })   -- yellow
local function of(metal, said)
  local gold, platinum, palladium = part(metal, "Au"), part(metal, "Pt"), part(metal, "Pd")
  if platinum >= 500 then return "platinum" end
  if palladium >= 500 then return "palladium" end
  if part(metal, "Ni") > 10 then return "nickel white" end
  if palladium > 30 then return "palladium white" end
  if gold < 300 and part(metal, "Ag") >= 500 then return "silver" end
  if said then return said end
  local share = gold <= 900 and platinum <= 30 and share_of(metal)
  return share and family_at(share) == "rose" and "rose" or "yellow"
end

return { place = place, of = of, names = names, band = band, band_names = band_names, whitener = whitener, weights = weights, limits = { rose = ROSE, green = GREEN, near = NEAR, zinc = ZINC }, shades = shades }
