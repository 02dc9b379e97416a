-- want: OK "1e300"
-- Tried: figures of 300 digits, to push the next column off the page
-- Held by: the shortest digits are printed, with an exponent
sheet.bench:line("Wide", 1e300) sheet.bench:line("W", Q "1e250 g") return {}
