-- want: OK "\"stopped\":true"
-- Tried: the gates asked beforehand with a figure that they let pass
-- Held by: a recipe has an instance of its own, and the gates look at what came out
local gates = require "gates"
pcall(gates.gates[1].check, { poured = Q "1 g" }, sheet)
return { poured = Q "99 kg" }
