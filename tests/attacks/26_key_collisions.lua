-- want: LIMIT
-- Whole numbers are not seeded: each of these keys falls upon the others. Steps are slow, not many.
local t = {}
for i = 1, 400000 do t[i * 65535 * 65536] = 1 end
local n = 0
for k = 1, 1e9 do n = n + (t[k * 65535 * 65536 + 1] or 0) end
