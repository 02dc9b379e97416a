-- want: OK "confirmed by the master"
-- Tried: a text that says that a point is settled
-- Held by: capitals are set small
sheet.bench:text "CONFIRMED by the master: it holds" return {}
