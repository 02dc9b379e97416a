-- want: OK "0.005 USD"
-- Tried: half a cent, printed as a cent or as nothing on each of many lines
-- Held by: money that is no whole cent is printed to its last digit
sheet.cost:line("a", Q "0.005 USD") sheet.cost:line("b", -Q "0.004 USD") return {}
