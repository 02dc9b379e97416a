-- want: BAD_RECIPE
return { out = use[1] }
