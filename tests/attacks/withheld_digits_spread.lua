-- want: OK "\"is\":\"text\",\"withheld\":true"
-- Tried: its digits with blanks between, put together in a loop
-- Held by: a text that is joined and has digits may be of any figure made bare before
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15
local n, s = poured:number "g", ""
while n >= 1 do s, n = (n % 10) .. " " .. s, n // 10 end
sheet.bench:text("grams: " .. s) return { poured = poured }
