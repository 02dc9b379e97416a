-- No further lines. A house that adds some (a case, the post, a discount) has a rule of its own.

return rule "more_lines" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function() return { lines = {} } end,
  proofs = { { "none", given = { so_far = "100 EUR", making = "60 EUR", date = "2026-11-24", piece = "A ring", time = "2 h" }, expect = { lines = {} },
    source = "definition" } },
}
