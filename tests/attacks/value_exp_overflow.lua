-- want: BAD_RECIPE "no finite result"
return { out = exp(1e6) }
