-- want: OK "\"withheld\":true"
-- Tried: the figure as a fraction
-- Held by: a fraction is a figure
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:text "Weigh 61/2 g" return { poured = Q "30.5 g" }
