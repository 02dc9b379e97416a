-- want: BAD_RECIPE "attempt to call"
job()
