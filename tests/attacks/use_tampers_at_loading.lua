-- want: OK "\"stopped\":true"
-- whole file
-- What a file does while it is loaded reaches no instance but its own either.
require("trade").limit[1] = "100 kg"
return recipe { title = "t", version = "1", level = 1, gives = { poured = give.mass "Poured" },
  work = function () return { poured = Q "99 kg" } end }
