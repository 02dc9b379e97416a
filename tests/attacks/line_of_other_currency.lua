-- want: BAD_RECIPE "says that it prints"
-- Tried: a line of a price in another currency
-- Held by: the dimension holds the currency
sheet.cost:line("Price", Q "100 CAD", { of = "out" }) return { out = Q "100 USD" }
