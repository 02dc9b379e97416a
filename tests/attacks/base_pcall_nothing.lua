-- want: BAD_RECIPE "bad argument"
pcall()
