-- want: OK
sheet.bench:line("\27[31mMetal\r\n", "\27]0;x\7 \u{202e}good")
return {}
