-- want: BAD_RECIPE "'coroutine' is not known here"
local last
for i = 1, 20000 do
  local before = last
  last = coroutine.create(function () local x <close> = before end)
end
