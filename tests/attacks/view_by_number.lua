-- want: BAD_RECIPE "is read by name"
return { out = job[1] }
