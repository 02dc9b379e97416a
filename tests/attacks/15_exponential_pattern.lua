-- want: OK "\"value\":false"
-- A part is found as it stands: no pattern, nothing exponential.
local hay, needle = ("a"):rep(30), ("a?"):rep(30) .. ("a"):rep(30)
return { out = hay:find(needle) ~= nil }
