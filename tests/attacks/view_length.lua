-- want: BAD_RECIPE "attempt to get length"
return { out = #job }
