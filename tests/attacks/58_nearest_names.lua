-- want: LIMIT "did more work than it is allowed"
local name = ("a"):rep(90)
while true do
  pcall(function () return job[name] end)
  pcall(function () return tostrinh end)
  pcall(function () return craft.dentistry end)
end
