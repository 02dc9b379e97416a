-- want: BAD_RECIPE "says that it prints"
-- Tried: a difference of temperatures where the give is a temperature
-- Held by: the kind is compared
sheet.bench:line("Flask", Q "30 Δ°C", { of = "out" }) return { out = Q "30 °C" }
