-- What hurts people at each step, always in the same words, because a page prints the same caution only once. `at` is a
-- sheet, or a page of one.
--
-- Masks: half mask with P100, or P3, or FFP3 (a university's page on protection against dusts, after EN 149). Shade 3 for a
-- torch: 29 CFR 1910.133; goggles under the face shield: WAC 296-155-215. A burn: 20 minutes of cool running water (three
-- first aid pages agree). Metal fume fever: 3 to 12 h after, over in 24 to 48 h (a clinical laboratory's page); cadmium:
-- California Title 8, cadmium, Appendix A. Cracked crucibles: a foundry magazine on the service life of crucibles. Kiln
-- doors and burning wax, glowing buttons: common practice, no source.

-- Beside the cautions the same last word, which a page prints once.
local function local_rules(at) at:caution("local-rules", "Local rules decide: masks, ventilation, waste, who may do this work") end

local SAID = {
  powder     = { "silica", "Silica dust scars lungs: half mask with P100 filters (P3 or FFP3 in Europe), wet clean-up, no sweeping, no compressed air, none down the drain" },
  steam      = { "steam", "Steam scalds: let it out before the lid is lifted, hole of the flask down" },
  molten     = { "molten-metal", "Molten metal: face shield over tinted goggles, shade 3 for a torch, leather, dry floor, keep others clear; a torch makes carbon monoxide: good ventilation" },
  crucible   = { "crucible-cracks", "Look at the crucible before each melt, inside and out: with a crack, a chip or a thin wall it is out of service. It has never been wet, or it is dried first" },
  metal_fume = { "metal-fume", "Metal fume fever: shivering and fever some 3 to 12 h after breathing white fume, over in a day or two. Cadmium begins the same way and can kill: go to a doctor and say what was melted" },
  damp       = { "damp", "Water under molten metal throws it out: dry and warm metal, flux, tongs, rod and ingot mould first" },
  hot_flask  = { "hot-flask", "A hot flask burns through leather, and in water throws steam and mud: tongs, face shield, deep bucket, sprue opening away from you. While the button glows the flask is not lifted: the metal may still run" },
  burn       = { "burn", "A burn: 20 minutes of cool running water at once, rings and watch off, no ice, nothing smeared on. Large, deep, face, hands: call for help" },
  spent      = { "spent-silica", "Burnt-out investment is fine silica, which scars lungs: half mask with P100 filters (P3 or FFP3 in Europe), keep it wet, no compressed air, no mud down the drain" },
  acid       = { "acid", "Acid into water, never water into acid; goggles, good ventilation, and no hot piece into the pickle: it spits" },
}

-- Several of them, by name, at one place: `hazards.say(page, { "molten", "damp" })`.
local function say(at, names)
  for i, name in ipairs(names) do
    at:caution(SAID[name][1], SAID[name][2])
    if i == 1 then local_rules(at) end
  end
end

-- The kiln's smoke, by the thermometer of its program.
local function fume(at, unit)
  at:caution("fume", text.fill("Wax smoke can ignite, and the kiln gives off carbon monoxide and sulfur: vent it outside, nothing that burns near it. Never open the kiln while wax burns, {from} to {to}: the flame comes out at you", {
      from = Q "200 °C":as(unit):nearest("1 Δ" .. unit):as(unit), to = Q "500 °C":as(unit):nearest("1 Δ" .. unit):as(unit) }))
  local_rules(at)
end

return { local_rules = local_rules, say = say, fume = fume }
