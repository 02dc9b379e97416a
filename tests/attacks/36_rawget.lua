-- want: BAD_RECIPE "'rawget' is not known here"
return { out = rawget }
