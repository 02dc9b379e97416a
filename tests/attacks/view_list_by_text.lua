-- want: BAD_RECIPE "a list is read by number"
return { out = job.stones.first }
