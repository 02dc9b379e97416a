-- What a refiner may be expected to find in a jar, and when sending it pays.

local PRACTICE = "common practice, no source"

-- How much of a jar is metal at all: anywhere between the two, equally likely. A plating rinse says nothing by its mass.
local metal_in = {
  ["clean scrap"]    = { low = "100 %", high = "100 %", source = "it is metal" },
  ["filings"]        = { low = "60 %",  high = "80 %",  source = PRACTICE },
  ["polishing dust"] = { low = "5 %",   high = "20 %",  source = PRACTICE },
  ["sweeps"]         = { low = "0.5 %", high = "3 %",   source = PRACTICE },
}
local kinds = { "clean scrap", "filings", "polishing dust", "sweeps" }

-- Fine metal to expect in a jar { kind, mass, fineness, metal_share }, and one standard deviation of it. A share that was
-- tested goes before the table's.
local function expect(jar)
  local row = metal_in[jar.kind]
  local low, high = Q(row.low), Q(row.high)
  if jar.metal_share then low, high = jar.metal_share, jar.metal_share end
  local pure = jar.fineness * jar.mass
  return pure * ((low + high) / 2), pure * ((high - low) / 12 ^ 0.5)
end

-- The least fine mass whose refiner's fee is no more than `share` of its value.
--     scrap.least_lot(Q "50 USD", Q "5 %", Q "100 USD/g")   -- 10 g
local function least_lot(fee, share, price)
  return fee / (price * share)
end

return { expect = expect, least_lot = least_lot, kinds = kinds }
