-- want: BAD_RECIPE "infinity"
return { out = sum { 1 / 0 } }
