-- want: BAD_RECIPE "cannot be changed"
job.stones[1] = Q "9 ct"
