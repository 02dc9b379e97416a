-- want: BAD_RECIPE "2000 bytes"
-- Tried: what is confirmed stands far behind blanks
-- Held by: a remark has at most 2000 bytes, and is wrapped
sheet:confirm("share", "Accept" .. (" "):rep(3000) .. "the loss of 90 %", { "poured" }) return { poured = Q "1 g" }
