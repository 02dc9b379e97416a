-- want: BAD_RECIPE "a line feed"
-- whole file
-- Tried: a title of two lines, the second a digest
-- Held by: declared texts are one line
return recipe { title = "Need\nsha256:00", version = "1", level = 1, work = function () return {} end }
