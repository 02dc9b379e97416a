-- want: BAD_RECIPE "says that it prints"
-- Tried: fine silver where the give is fine gold
-- Held by: the metal of a fine mass is compared
sheet.bench:line("Fine", Q "30 g Ag", { of = "out" }) return { out = Q "30 g Au" }
