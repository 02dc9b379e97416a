-- want: OK "\"record\":\"tree ring\""
-- Tried: a record of two lines, to be entered twice
-- Held by: one line
sheet.bench:line("Tree", Q "1 g", { record = "tree\nring" }) return {}
