-- A sum, from whole steps of the house: the next step above it, but never more than the sum that limits it.
local steps = {}
function steps.next(sum, step, most) return most and min(sum:rounded("up", step), most) or sum:rounded("up", step) end
return steps
