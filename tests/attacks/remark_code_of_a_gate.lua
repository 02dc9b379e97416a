-- want: OK "\"code\":\"attack/too-much\""
-- Tried: a note with the code of a gate's stop, and the stop left to be taken for it
-- Held by: the recipe's name stands before it, and the gate's stop comes all the same
sheet:note("too-much", "Nothing is too much") return { poured = Q "99 kg" }
