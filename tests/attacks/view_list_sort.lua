-- want: BAD_RECIPE "takes a table of your own"
table.sort(job.stones)
