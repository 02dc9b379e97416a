-- want: BAD_RECIPE "a whole number is needed"
return { whole = 1e300 }
