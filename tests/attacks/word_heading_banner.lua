-- want: OK "\"text\":\"stopped is nothing\""
-- Tried: a heading like the banner
-- Held by: capitals are set small
sheet.bench:heading "STOPPED is nothing" return {}
