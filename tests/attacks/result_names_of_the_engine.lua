-- want: OK "\"stopped\":false"
-- Tried: gives with the names of a result's own members
-- Held by: what a recipe gives stands under results alone
sheet.bench:text "x" return { named = { stopped = 1, lemel = 2, withheld = 3, __proto__ = 4, ["../results"] = 5, [""] = 6 } }
