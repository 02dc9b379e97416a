-- want: BAD_RECIPE "'utf8' is not known here"
return { out = utf8 }
