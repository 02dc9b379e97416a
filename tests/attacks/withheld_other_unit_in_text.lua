-- want: OK "\"withheld\":true"
-- Tried: the figure in a sentence, in another unit
-- Held by: a figure in a text is read, in any unit
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:text "Weigh out 0.03 kg of it" return { poured = Q "30 g" }
