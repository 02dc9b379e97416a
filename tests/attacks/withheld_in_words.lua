-- want: OK "thirty grams"
-- Tried: the figure spelled out
-- Held by: NOT HELD: words are no figures (docs/security.md)
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:text "thirty grams" return { poured = Q "30 g" }
