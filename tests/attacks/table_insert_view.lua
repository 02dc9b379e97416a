-- want: BAD_RECIPE "needs a table of your own"
table.insert(job, 1)
