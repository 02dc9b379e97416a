-- want: LIMIT "did more work than it is allowed"
local a, b = Q "1 g", Q "1 mg"
while true do a = a + b - b end
