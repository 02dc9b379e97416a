-- want: BAD_VALUE "two alphabets"
-- Tried: an alloy whose name looks like that of another
-- Held by: a name with letters of two alphabets in a word is refused
return { out = alloy { name = "Аu750 yellow 3N", composition = { Au = "375 ‰", Cu = "625 ‰" } } }
