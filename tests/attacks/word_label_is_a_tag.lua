-- want: OK "\"label\":\"stop is lifted by\""
-- Tried: a label that looks like a stop
-- Held by: lemel's capitals are set small
sheet.bench:line("STOP is lifted by", Q "1 g") return {}
