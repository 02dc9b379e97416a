-- want: OK "\"value\":\"do not\""
-- Tried: a cell that looks withheld
-- Held by: capitals are set small
sheet.bench:grid { columns = { "A" }, rows = { { "DO NOT" } } } return {}
