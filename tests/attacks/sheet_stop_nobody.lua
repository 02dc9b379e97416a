-- want: OK "\"stopped\":true"
-- A stop that names none withholds all.
sheet:stop("x", "no", {})
return { out = 5 }
