-- want: OK "\"withheld\":[\"poured\"]"
-- Tried: the same figure as another give that is not withheld
-- Held by: NOT HELD: a recipe says what its stop withholds (docs/security.md)
sheet:stop("heavy", "Too heavy", { "poured" })
return { poured = Q "30 g", listed = { Q "30 g" } }
