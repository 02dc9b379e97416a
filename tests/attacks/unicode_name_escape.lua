-- want: BAD_RECIPE "a name in a result contains a control character"
-- Tried: a name in a give that clears the screen
-- Held by: names are looked at as they are written
return { out = { ["a\27[2Jb"] = 1 } }
