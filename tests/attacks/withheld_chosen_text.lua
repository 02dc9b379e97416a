-- want: OK "at least 30 grams"
-- Tried: the nearest of a list of texts
-- Held by: NOT HELD: what a recipe does because of a figure is not followed (docs/security.md)
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15
local words = "none"
for _, t in ipairs { { Q "20 g", "at least 20 grams" }, { Q "30 g", "at least 30 grams" } } do if poured >= t[1] then words = t[2] end end
sheet.bench:text(words) return { poured = poured }
