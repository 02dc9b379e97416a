-- want: BAD_RECIPE
return { poured = Q "5 mL" }
