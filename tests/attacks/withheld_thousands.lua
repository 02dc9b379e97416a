-- want: OK "\"withheld\":true"
-- Tried: a large figure with commas
-- Held by: commas that part thousands are left out
sheet:stop("big", "Too big", { "poured" })
sheet.bench:text "Weigh 12,345 g" return { poured = Q "12345 g" }
