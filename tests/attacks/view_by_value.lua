-- want: BAD_RECIPE "is read by name"
return { out = job[Q "1 g"] }
