-- The receipt of a job whose piece is not settled yet: the client is at the counter with the old metal. It reads the job of
-- `remake`, of which it needs the old metal alone.

local remake_asks = require "remake_asks"
local remaking = require "remaking"

-- All that the main job asks, and none of it needed but the pieces.
local function asks()
  local groups = remake_asks.asks()
  for _, group in ipairs(groups) do
    for name, one in pairs(group) do
      if type(name) == "string" then one.optional = one.default == nil end
    end
  end
  return groups
end

return recipe {
  title   = "The old metal as it comes in",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = { "old_metal", "remake" },   -- remake for its allowances: the job may set them
  about   = "Receipt and consent of a job of `remake` before its piece is settled, and what the old metal is worth.",

  asks = asks(),
  gives = {
    handed_fine = give.fine_mass { "Fine metal in the pieces handed over", optional = true },
    handed_low  = give.fine_mass { "At least, of these", optional = true },
  },

  work = function(job, house, sheet)
    if #job.old_metal == 0 then error("nothing was brought: give old_metal, piece by piece", "old_metal") end
    local brought = remaking.brought(job)
    brought.set_off = true   -- no offer is made before the quote
    local old = use.old_metal(brought)
    return { handed_fine = remaking.read(old, "handed_fine"), handed_low = remaking.read(old, "handed_low") }
  end,

  proofs = {
    { "a ring, before anything is known of the piece",
      house = { scale_spread = "0.01 g", credit_share = "90 %", refiner = { yield = "99 %", payable = "97 %", fee = "45.00 USD" },
                prices = { Au = { price = "98.50 USD/g", at = "2026-11-24T09:00", from = "worked example" } } },
      given = { old_metal = { { name = "ring", stamp = "14K", gross = "6.42 g", wish = "melt", consent = true, cadmium = "none found",
                                tests = { { method = "xrf cut", found = "583 ‰ ± 4 ‰", cut = true } } } } },
      expect = { handed_fine = "3.7429 g Au" }, within = "0.0001 g Au", source = "6.42 g x 583 ‰: arithmetic" },
  },
}
