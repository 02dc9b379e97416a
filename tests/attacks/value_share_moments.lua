-- want: BAD_RECIPE "cannot be a weight to share by"
return { out = Q("10 USD"):share { Q "2026-11-24" } }
