-- want: BAD_RECIPE "'io' is not known here"
return { out = io }
