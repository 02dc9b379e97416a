-- want: BAD_RECIPE "a name in a result contains"
-- Tried: a name in a give that turns the direction of writing
-- Held by: names are looked at as they are written
return { out = { ["a\u{202e}b"] = 1 } }
