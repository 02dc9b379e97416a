-- want: OK "\"is\":\"text\",\"withheld\":true"
-- Tried: its digits as letters of the alphabet
-- Held by: a letter is cut out at a place that came from it
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15
local n, s = poured:number "g", ""
for place = 1, 3 do s = ("abcdefghij"):sub(n // 10 ^ place % 10 + 1, n // 10 ^ place % 10 + 1) .. s end
sheet.bench:text("code " .. s) return { poured = poured }
