cat > recipes/bench.lua <<'E'
return recipe {
  title = "Bench", version = "1.0.0", level = 1,
  asks = { worked = ask.hours { "Time at the bench" }, wax = ask.weight { "Wax" } },
  gives = { charged = give.tiem "Time charged" },
  work = function (job) return { charged = job.worked } end,
}
E
lemel check bench
