-- want: OK "It costs …, or …"
-- Tried: a withheld price in a note, the currency before it
-- Held by: both orders are read
sheet:stop("dear", "Too dear", { "out" })
sheet:note("x", "It costs USD 1234.50, or USD1,234.5") return { out = Q "1234.50 USD" }
