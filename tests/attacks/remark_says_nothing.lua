-- want: BAD_RECIPE "is empty"
-- Tried: a point to confirm without a word of what is confirmed
-- Held by: a remark of blanks is refused
sheet:confirm("share", "  \n ", { "poured" }) return { poured = Q "1 g" }
