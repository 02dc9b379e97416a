-- want: BAD_RECIPE "says that it prints"
-- Tried: the day of a moment where the give is an hour of it
-- Held by: moments are compared to the second
sheet.bench:line("Due", Q "2026-11-24", { of = "out" }) return { out = Q "2026-11-24T09:00" }
