-- want: LIMIT "used more memory than it is allowed"
local t = {}
while true do t[#t + 1] = { t, t, t, t, t, t, t, t, t, t, t, t, t, t, t, t, t, t, t, t } end
