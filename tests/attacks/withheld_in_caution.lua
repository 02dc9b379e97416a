-- want: OK Weigh out … with gloves
-- Tried: the figure in a caution
-- Held by: a caution of a recipe is looked at like a note
sheet:stop("heavy", "Too heavy", { "poured" })
sheet:caution("x", "Weigh out 30 g with gloves") return { poured = Q "30 g" }
