-- want: LIMIT "larger than 1 MiB"
local t = {}
while true do t[#t + 1] = { t, t, t, t, t, t, t, t, t, t, t, t, t, t, t, t, t, t, t, t } end
