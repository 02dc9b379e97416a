-- want: BAD_RECIPE
return { gold = Q "5 g Ag" }
