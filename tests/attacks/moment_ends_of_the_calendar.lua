-- want: OK "1 to 9999"
-- Tried: moments beyond the ends of the calendar, days and seconds that are not
-- Held by: all are refused
local said = {}
for i, f in ipairs {
  function () return Q "9999-12-31T23:59" + Q "10 min" end, function () return Q "0001-01-01" - Q "1000000 h" end,
  function () return Q "2026-02-29" end, function () return Q "2026-11-24T24:00" end,
  function () return Q "2026-06-30T23:59:60" end, function () return Q "9999-12-31T12:00":next(Q "11:00") end } do
  local ok, e = pcall(f)
  assert(not ok, "it came to " .. tostring(e))
  said[i] = tostring(e)
end
sheet.bench:text(table.concat(said, " | ")) return {}
