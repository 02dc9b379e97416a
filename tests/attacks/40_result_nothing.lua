-- want: BAD_RECIPE "a table of its gives is due"
return 5
