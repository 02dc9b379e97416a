-- What a supplier's sheet says of an alloy: pour, flask, quench and superheat, each between two ends, as `stock` holds them.
-- Where it gives figures they replace the recipes' own; otherwise those apply.

local RANGES = { "pour", "superheat", "flask", "quench" }
local WORDS = { pour = "pour at", superheat = "pour above the liquidus by", flask = "flask at", quench = "quench after" }

local function middle(range) return range:low() + (range:high() - range:low()) / 2 end

-- How hot it is poured; `by_sheet` says that a sheet has it.
local function pour_at(metal, liquidus, superheat)
  if metal.pour then return middle(metal.pour), true end
  if metal.superheat then return liquidus + middle(metal.superheat), true end
  return liquidus + superheat, false
end

-- The two ends between which the pour may be; nil where no sheet has them.
local function pour_window(metal, liquidus)
  if metal.pour then return metal.pour:low(), metal.pour:high() end
  if metal.superheat then return liquidus + metal.superheat:low(), liquidus + metal.superheat:high() end
end

-- The flask for a section: heavy work at the cool end, filigree at the hot end. nil where no sheet has it.
local function flask_at(metal, section)
  local range = metal.flask
  if not range then return nil end
  return section == "heavy" and range:low() or section == "filigree" and range:high() or middle(range)
end

-- The two ends of a range in words.
local function between(range)
  return range:low() == range:high() and tostring(range:low()) or text.fill("{a} to {b}", { a = range:low(), b = range:high() })
end

-- All that the sheet says, with whose it is; nil where it says nothing.
local function in_words(metal)
  local said = {}
  for _, name in ipairs(RANGES) do
    if metal[name] then table.insert(said, WORDS[name] .. " " .. between(metal[name])) end
  end
  if #said == 0 then return nil end
  return text.fill("{metal}, by {source}: {said}. That holds here", { metal = metal.name ~= "" and metal.name or "The metal", source = metal.source, said = table.concat(said, ", ") })
end

-- Two metals whose sheets have nothing in common, in words: the first such pair.
local function clash(metals)
  for _, name in ipairs(RANGES) do
    for i, a in ipairs(metals) do
      for k = i + 1, #metals do
        local b = metals[k]
        if a.metal[name] and b.metal[name] and (a.metal[name]:high() < b.metal[name]:low() or b.metal[name]:high() < a.metal[name]:low()) then
          return text.fill("{a} and {b} go into one charge, but their sheets have nothing in common: {what} {one} ({sa}), and {two} ({sb}). Ask the supplier, or cast a trial", {
            a = a.name, b = b.name, what = WORDS[name], one = between(a.metal[name]), two = between(b.metal[name]), sa = a.metal.source, sb = b.metal.source })
        end
      end
    end
  end
end

return { pour_at = pour_at, pour_window = pour_window, flask_at = flask_at, in_words = in_words, clash = clash, between = between }
