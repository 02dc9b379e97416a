-- want: LIMIT "did more work than it is allowed"
local a, b, none = Q "1 g", Q "1 mm"
while true do
  pcall(function () return a + b end)
  pcall(function () return none + a end)
end
