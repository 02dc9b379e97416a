-- want: LIMIT
-- Each level names the one below it ten times over.
local t = { 1 }
for i = 1, 14 do t = { t, t, t, t, t, t, t, t, t, t } end
return { out = t }
