-- A casting in a client's metal: its boxes say which side of the metal account they are on.
return recipe {
  title = "A casting", version = "1.0.0", licence = "CC0-1.0", level = 1, asks = {}, gives = { all = give.text "All" },
  work = function(_, _, sheet)
    local fine = Q "585 ‰ Au"
    sheet.bench:weigh("grain", Q "10 g", { record = "weighed grain", fineness = fine, way = "added", way_owner = "client" })
    sheet.bench:measure("Tree", nil, { record = "tree", fineness = fine, way_owner = "client" })
    sheet.bench:box("Button", "button", { fineness = fine, way = "here", way_owner = "client" })
    return { all = "done" }
  end,
  proofs = { { "it runs", given = {}, expect = { all = "done" }, source = "definition" } },
}
