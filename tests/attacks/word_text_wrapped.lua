-- want: OK "xx stop  Pour"
-- Tried: a text so long that its second line starts with a tag
-- Held by: capitals are set small wherever they stand
sheet.bench:text(("x"):rep(72) .. " STOP  Pour") return {}
