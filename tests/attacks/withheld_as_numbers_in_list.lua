-- want: OK "\"withheld\":[\"out\",\"poured\"]"
-- Tried: its digits as a list of bare numbers
-- Held by: a bare number in a list, too, is taken to come from all that was made bare
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15.37
local n, digits = floor(poured:number "mg"), {}
while n >= 1 do digits[#digits + 1], n = n % 10, n // 10 end
return { poured = poured, out = digits }
