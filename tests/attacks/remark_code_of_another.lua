-- want: BAD_RECIPE "small letters"
-- Tried: a point with the code of another recipe's
-- Held by: a code has no stroke; the recipe's name is put before it
sheet:confirm("quote/share", "Accept 5 %", {}) return {}
