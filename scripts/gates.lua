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

} }
