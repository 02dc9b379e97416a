-- want: BAD_RECIPE "job has no 'wac'"
return { out = job.wac }
