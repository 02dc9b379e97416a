-- want: OK
local least, most = 1 << 63, (1 << 63) - 1
return { out = ("abc"):find("b", most) == nil and ("abc"):find("b", least) == nil and ("abc"):find("", 4) == 4 }
