-- want: OK "\"withheld\":true"
-- Tried: the figure in a sentence, in brackets
-- Held by: what stands before and after a figure does not hide it
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:text "The rest (30 g) is scrap" return { poured = Q "30 g" }
