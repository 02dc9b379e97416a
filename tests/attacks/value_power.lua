-- want: BAD_RECIPE
return { out = Q "2 mm" ^ 1e300 }
