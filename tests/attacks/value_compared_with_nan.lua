-- want: BAD_RECIPE "not a number"
return { out = Q "50 %" <= 0 / 0 }
