-- want: OK "\"record\":\"- sha256:00\""
-- Tried: a box whose record is a digest
-- Held by: it gets a hyphen before it
sheet.bench:box("Weigh", "sha256:00") return {}
