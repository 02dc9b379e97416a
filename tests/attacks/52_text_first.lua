-- want: BAD_RECIPE "was given where a value is needed"
return { out = "1 g" + Q "1 g" }
