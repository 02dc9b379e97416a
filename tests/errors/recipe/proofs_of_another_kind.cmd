cat > recipes/tin.lua <<'END'
return recipe { title = "Tin", version = "1.0.0", level = 1,
  gives = { name = give.text "What it is" },
  work = function () return { name = "tin" } end,
  proofs = "tin is tin",
}
END
lemel check tin
