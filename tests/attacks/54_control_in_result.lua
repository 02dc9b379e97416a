-- want: OK
return { out = "\27[2J\u{202e}\xff" }
