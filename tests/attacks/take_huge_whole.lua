-- want: BAD_RECIPE "a whole number is due"
return { whole = 1e300 }
