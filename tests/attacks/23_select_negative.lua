-- want: BAD_RECIPE "select counts from 1"
return { out = select(-1, 1, 2, 3) }
