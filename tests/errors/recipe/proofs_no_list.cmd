cat > recipes/tin.lua <<'END'
return recipe { title = "Tin", version = "1.0.0", level = 1,
  gives = { name = give.text "What it is" },
  work = function () return { name = "tin" } end,
  proofs = function() local list = { { "tin is tin", expect = { name = "tin" }, source = "definition" } } end,
}
END
lemel check tin
