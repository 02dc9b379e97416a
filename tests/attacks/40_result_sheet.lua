-- want: BAD_RECIPE "cannot be given on"
return { out = { sheet } }
