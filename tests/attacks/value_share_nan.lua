-- want: BAD_RECIPE
return { out = Q("10 USD"):share { 0 / 0, 1 } }
