-- want: BAD_RECIPE
Q "1 g\0g"
