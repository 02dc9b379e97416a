-- want: BAD_RECIPE "a page of the sheet is needed before the colon"
sheet.bench.line(sheet, "x", 1)
