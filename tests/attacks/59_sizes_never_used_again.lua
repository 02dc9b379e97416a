-- want: LIMIT "did more work than it is allowed"
-- Each round fills memory with texts of another size and lets them go: what was held before is held still.
local size = 100
while true do
  local t = {}
  for i = 1, 4000 do t[i] = ("x"):rep(size) .. i end
  size = size + 16
end
