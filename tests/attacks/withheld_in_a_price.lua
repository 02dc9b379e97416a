-- want: OK "\"label\":\"Pay\",\"withheld\":true"
-- Tried: a withheld mass as a price, rounded
-- Held by: rounding and another kind do not end where it came from
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15
sheet.client:line("Pay", (poured * Q "7 USD/g"):nearest "5 USD") return { poured = poured }
