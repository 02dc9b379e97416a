-- want: BAD_RECIPE "'rawequal' is not known here"
return { out = rawequal }
