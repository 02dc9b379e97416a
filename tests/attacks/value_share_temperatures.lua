-- want: MISMATCH "cannot be a weight to share by"
return { out = Q("10 USD"):share { Q "20 °C", Q "10 °C" } }
