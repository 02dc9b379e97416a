-- want: OK "|abc|||c"
local least, most = 1 << 63, (1 << 63) - 1
return { out = ("abc"):sub(most) .. "|" .. ("abc"):sub(least, most) .. "|" .. ("abc"):sub(most, least) .. "|" ..
  ("abc"):sub(1, least) .. "|" .. ("abc"):sub(-1, -1) }
