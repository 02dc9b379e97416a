-- want: MISMATCH "cannot be added"
return { out = sum({ { day = Q "Monday" } }, "day") }
