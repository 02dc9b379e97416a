-- What hurts people at each step, in one wording wherever it is said: a page prints the same caution once, where it bites
-- last. `at` is a sheet, or a page of one.

return {
  powder    = function(at) at:caution("silica", "Silica dust scars lungs: fitted mask, wet clean-up, no sweeping, no compressed air, none down the drain. Local rules decide") end,
  fume      = function(at) at:caution("fume", "Wax smoke can ignite, and the kiln gives off carbon monoxide and sulfur: vent it outside, nothing that burns near it") end,
  steam     = function(at) at:caution("steam", "Steam scalds: let it out before the lid is lifted, hole of the flask down") end,
  molten    = function(at) at:caution("molten-metal", "Molten metal: face shield, dark glasses, leather, dry floor, nobody in reach; a torch makes carbon monoxide: moving air") end,
  damp      = function(at) at:caution("damp", "Water under molten metal throws it out: dry and warm metal, flux, tongs, rod and ingot mould first") end,
  hot_flask = function(at) at:caution("hot-flask", "A hot flask burns through leather, and in water throws steam and mud: tongs, face shield, deep bucket, hole away from you") end,
  spent     = function(at) at:caution("spent-silica", "Burnt-out investment is fine silica, which scars lungs: keep it wet, mask, no compressed air, no mud down the drain") end,
  acid      = function(at) at:caution("acid", "Acid into water, never water into acid; goggles, air that moves, and no hot piece into the pickle: it spits") end,
}
