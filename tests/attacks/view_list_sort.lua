-- want: BAD_RECIPE "needs a table of your own"
table.sort(job.stones)
