-- want: BAD_RECIPE "attack.lua:7: it is 6 g"
-- whole file
-- Tried: the other way round: another recipe withholds, and the error came from something else
-- Held by: the run is made again with marks, and the error's figure has none
return recipe { title = "t", version = "1", level = 1, uses = { "stopped" }, gives = { poured = give.mass "Poured" },
  allowances = { wax = ask.mass { "Wax", default = "2 g", source = "common practice, no source" } },
  work = function (job, house, sheet) use.stopped {}
    error("it is " .. tostring(house.wax * 3)) end }
