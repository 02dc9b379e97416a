-- want: LIMIT "did more work than it is allowed"
local function f(n, ...)
  if n == 0 then
    while true do select("#", ...) end
  end
  return f(n - 1, 1, 2, 3, 4, 5, 6, 7, 8, ...)
end
f(400)
