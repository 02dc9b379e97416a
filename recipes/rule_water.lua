-- The one figure that the house sets, whatever the season and the flask.

return rule "water" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job) return { ratio = job.usual_ratio } end,
  proofs = { { "as set", given = { flask_inside = "3 in", usual_ratio = "40 %" }, expect = { ratio = "40 %" }, source = "definition" } },
}
