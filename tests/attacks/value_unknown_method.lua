-- want: BAD_RECIPE "has no 'upto'"
return { out = Q("1 g"):upto "0.1 g" }
