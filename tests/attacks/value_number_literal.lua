-- want: OK
return { out = floor(1e300) == 1e300 }
