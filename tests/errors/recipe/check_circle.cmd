printf 'return recipe { title = "A", version = "1.0.0", level = 1, uses = { "there" },\n  gives = { c = give.number "C" }, work = function () return { c = use.there {}.c } end,\n  proofs = { { "p", expect = { c = "1" }, source = "this test" } } }\n' > recipes/here.lua
sed 's/there/here/g' recipes/here.lua > recipes/there.lua
lemel check here
