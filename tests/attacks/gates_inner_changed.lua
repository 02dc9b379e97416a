-- want: OK "\"stopped\":true"
-- The gate's own list is not the one that this recipe reaches.
require("gates").gates[1] = nil
require("trade").limit[1] = "100 kg"
return { poured = Q "99 kg" }
