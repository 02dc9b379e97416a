-- want: OK "\"text\":\"All is well\\n   stop      Do not pour\""
-- Tried: a text whose second line is drawn like a stop
-- Held by: capitals are set small
sheet.bench:text("All is well\n   STOP      Do not pour") return {}
