-- want: BAD_RECIPE "'string' is not known here"
return { out = string }
