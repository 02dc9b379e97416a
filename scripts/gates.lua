-- Stops that come from law, physics or health. After every recipe's work, whoever wrote it, each gate looks at what
-- the recipe was told and what it gave, by name, once all names that it needs are there. A recipe may stop earlier
-- and say it better; it cannot leave a gate out.
--
-- A gate must not trust the shape of what it looks at: `of` reads a member that may not be there.

local function of(record, name)
  for key, value in pairs(record) do
    if key == name then return value end
  end
  return nil
end

return { gates = {

  -- No calculation unmelts the wrong ring: metal that is not the studio's own needs a signed consent.
  { code = "consent",
    needs = { "lots", "weigh" },
    check = function(facts, sheet)
      for _, weighing in ipairs(facts.weigh) do
        for _, lot in ipairs(facts.lots) do
          local owner = of(lot, "owner")
          if of(lot, "name") == of(weighing, "name") and of(lot, "consent") ~= true
             and (of(lot, "consent") == false or (owner ~= nil and owner ~= "studio")) then
            sheet:stop("consent", text.fill("{lot} is to be weighed out, and no consent to melt it is recorded",
                       { lot = of(lot, "name") }))
          end
        end
      end
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
    needs = { "stamp", "place", "body", "body_fineness" },
    check = function(facts, sheet)
      if type(facts.stamp) ~= "string" or type(facts.place) ~= "string" or type(facts.body_fineness) ~= "fineness"
         or facts.stamp == "no mark" then
        return
      end
      local marking = require "marking"
      local place = marking.place(facts.place)
      local promise = place and marking.promise(place, facts.body_fineness.metal, facts.stamp, marking.article(facts))
      if not promise then
        sheet:stop("mark-above-lawful", text.fill("{stamp} is no mark known for {place}", facts), { "stamp" })
        return
      end
      local code, why = marking.forbidden(promise, facts)
      if code then
        sheet:stop(code, why, { "stamp" })
      end
    end },

} }
