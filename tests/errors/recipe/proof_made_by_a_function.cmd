cat > recipes/tin.lua <<'END'
return recipe { title = "Tin", version = "1.0.0", level = 1,
  gives = { name = give.text "What it is" },
  work = function () return { name = "tin" } end,
  proofs = function()
    local function once(name) if name then return { name, expect = { name = name }, source = "definition" } end end
    return {
      once "tin",
      { "tin is lead", expect = { name = "lead" }, sauce = "definition" },
    }
  end,
}
END
lemel check tin
