-- want: BAD_RECIPE "the code of a remark"
sheet:note(("x"):rep(41), "x")
