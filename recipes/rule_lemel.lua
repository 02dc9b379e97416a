-- A working loss that was agreed, of what is in the piece; without one, what the weighings say. The filings go back.

return rule "lemel" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job) return { away = job.share and job.piece_fine * job.share or job.lost } end,
  proofs = {
    { "8 % of the piece", given = { brought = "13 g Au", added = "0 g Au", piece_fine = "7.2 g Au", filings_fine = "0.6 g Au", lost = "0.05 g Au", share = "8 %" },
      expect = { away = "0.576 g Au" }, source = "8 % of 7.2" },
    { "by the weighings", given = { brought = "13 g Au", added = "0 g Au", piece_fine = "7.2 g Au", filings_fine = "0.6 g Au", lost = "0.05 g Au" },
      expect = { away = "0.05 g Au" }, source = "definition" },
  },
}
