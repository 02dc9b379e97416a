-- want: OK "\"level\":\"note\""
-- Tried: a note that says it was confirmed, in the words of a confirmation
-- Held by: its tag stays NOTE, and capitals are set small
sheet:note("x", "Share is high. CONFIRMED by Ana: fine") return {}
