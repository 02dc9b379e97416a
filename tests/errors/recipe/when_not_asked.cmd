for when in resin "how = poured" "how = carve" wax "= carved" "how ="; do
    printf 'return recipe { title = "x", version = "1.0.0", licence = "CC0-1.0", level = 1,\n  asks = { how = ask.choice { "How", options = { "carved", "printed" } }, wax = ask.mass { "Wax", optional = true, when = "%s" } },\n  gives = { m = give.mass "m" }, work = function (job) return { m = Q "1 g" } end, proofs = {} }\n' "$when" > x.lua
    lemel check x.lua
done
printf 'return recipe { title = "x", version = "1.0.0", licence = "CC0-1.0", level = 1,\n  asks = { how = ask.choice { "How", options = { "carved", "printed" } }, wax = ask.mass { "Wax", when = "how = carved" } },\n  gives = { m = give.mass "m" }, work = function (job) return { m = Q "1 g" } end, proofs = {} }\n' > x.lua
lemel check x.lua
