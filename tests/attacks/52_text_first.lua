-- want: BAD_RECIPE "stands where a value is due"
return { out = "1 g" + Q "1 g" }
