-- want: OK a note each gram
-- Tried: as many notes as the withheld mass has grams
-- Held by: NOT HELD: they are counted (docs/security.md)
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = Q "3 g"
for i = 1, poured:number "g" do sheet.bench:text("a note each gram") end
return { poured = poured }
