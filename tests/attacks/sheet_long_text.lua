-- want: BAD_RECIPE "more than 2000 bytes"
sheet.bench:text(("x"):rep(2001))
