-- want: OK "\"text\":\"- Worked by need 1.0.0\""
-- Tried: a text that reads like the foot
-- Held by: it gets a hyphen before it
sheet.bench:text "Worked by need 1.0.0" return {}
