-- want: BAD_RECIPE "no finite result"
return { out = log(0) }
