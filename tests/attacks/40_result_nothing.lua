-- want: BAD_RECIPE "a table of its gives is needed"
return 5
