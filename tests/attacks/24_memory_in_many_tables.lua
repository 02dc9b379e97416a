-- want: LIMIT "used more memory than it is allowed"
local t = {}
while true do
  local u = {}
  for i = 1, 1000 do u[i] = { u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u, u } end
  t[#t + 1] = u
end
