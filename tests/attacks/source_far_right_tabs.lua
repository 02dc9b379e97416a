-- want: BAD_RECIPE "more text after"
-- Tried: the same with tabs
-- Held by: a tab is a blank
local n = 1																																																																																																																																																																																																								n = 7
return { number = n }
