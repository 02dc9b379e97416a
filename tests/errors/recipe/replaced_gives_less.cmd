cat >recipes/wire.lua <<'RECIPE'
return recipe { title = "Wire by the house", version = "1.0.0", level = 1,
  asks = { thickness = ask.length { "Thickness" }, awg = ask.text { "Number", optional = true }, alloy = ask.alloy { "Metal" } },
  allowances = { kerf = ask.length { "Saw cut", default = "0.3 mm", source = "ours" } },
  gives = { thick = give.length "Thickness", weighs = give.length { "Length", optional = true } },
  work = function(job, house, sheet) return { thick = job.thickness } end,
  proofs = { { "one", given = { thickness = "1 mm", alloy = "Au750 yellow 3N" }, expect = { thick = "1 mm" }, source = "arithmetic" } } }
RECIPE
lemel check -q wire
