-- want: OK "\"columns\":[\"caution\"]"
-- Tried: the head of a column as a tag
-- Held by: capitals are set small
sheet.bench:grid { columns = { "CAUTION" }, rows = { { "1" } } } return {}
