-- want: OK "{\"kind\":\"list\",\"value\":[{\"kind\":\"mass\",\"value\":2,\"unit\":\"g\""
-- Tried: a list with as many entries as it has grams
-- Held by: NOT HELD: how often a loop goes round is not followed (docs/security.md)
sheet:stop("heavy", "Too heavy", { "poured" })
local poured, entries = job.wax * 15.37, {}
for i = 1, poured:number "g" do entries[i] = job.wax end
return { poured = poured, listed = entries }
