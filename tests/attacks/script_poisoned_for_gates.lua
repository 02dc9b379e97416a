-- want: OK "attack/too-much"
-- A script that remembers what it was first asked: the gates have one of their own.
require("trade").first("9000 kg")
return { poured = Q "100 kg" }
