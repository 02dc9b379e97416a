-- want: BAD_RECIPE "?[2J all good"
error("\27[2J all good")
