-- want: OK "\"value\":true"
-- Tried: a yes that a stop withholds, on a line that does not say of
-- Held by: NOT HELD: every yes would be blank (docs/security.md)
sheet:stop("x", "No", { "out" })
sheet.bench:line("Is it so?", true) return { out = true }
