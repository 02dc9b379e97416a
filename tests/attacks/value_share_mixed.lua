-- want: BAD_RECIPE
return { out = Q("10 USD"):share { Q "1 g", Q "1 mL" } }
