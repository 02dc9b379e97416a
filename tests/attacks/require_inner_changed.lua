-- want: OK
-- A recipe has an instance of its own: the next run sees none of this.
require("trade").list[1] = "forged"
return {}
