-- want: OK
return { out = job.stones[1 << 62] == nil and job.stones[-1] == nil and job.stones[0.5] == nil }
