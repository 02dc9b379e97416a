-- want: BAD_RECIPE "takes a table of your own"
table.insert(job, 1)
