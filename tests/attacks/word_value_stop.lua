-- want: OK "\"value\":\"stop\""
-- Tried: a value that is a tag
-- Held by: capitals are set small
sheet.bench:line("Verdict", "STOP") return {}
