-- want: OK
return { out = Q("10 USD"):share { 1e308, 1e308, 1e308 } }
