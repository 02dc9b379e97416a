-- want: LIMIT "500"
-- Tried: 3000 points to confirm, so that one is overlooked
-- Held by: a job has at most 500 remarks
for i = 1, 3000 do sheet:confirm("c" .. i, "Accept " .. i .. " %", { "poured" }) end return { poured = Q "1 g" }
