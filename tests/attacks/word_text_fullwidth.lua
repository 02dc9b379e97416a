-- want: OK "\"text\":\"stop lifted\""
-- Tried: a tag in full-width letters
-- Held by: letters are read as what they look like
sheet.bench:text "ＳＴＯＰ lifted" return {}
