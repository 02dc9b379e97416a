-- want: OK "\"value\":\"a1b2sound\""
-- whole file
-- A script that remembers what it was first asked, asked before a used recipe asks: that one has its own.
local trade = require "trade"
trade.first("poison")
return recipe { title = "Attack", version = "1", level = 1, uses = { "good" },
  gives = { out = give.text "Out", own = give.text "Own" },
  work = function ()
    trade.first("poison")
    local part = use.good { wax = "2 g" }
    return { out = part.said, own = trade.first("late") }
  end }
