-- want: BAD_RECIPE "job cannot be changed"
job.wax = Q "1 g"
