-- want: LIMIT "did more work than it is allowed"
local t = {}
for i = 1, 20000 do t["option " .. i] = i end
while true do pcall(sheet.bench.line, sheet.bench, "Wax", job.wax, t) end
