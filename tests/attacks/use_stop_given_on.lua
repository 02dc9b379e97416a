-- want: OK "\"withheld\":[\"out\"]"
-- whole file
return recipe { title = "t", version = "1", level = 1, uses = { "stopped" },
  gives = { out = give.record { "Out", fields = { charge = ask.mass { "Charge" } } } },
  work = function () return { out = use.stopped {} } end }
