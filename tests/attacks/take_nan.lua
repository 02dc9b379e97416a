-- want: BAD_RECIPE
return { number = 0 / 0 }
