-- want: BAD_RECIPE "'print' is not known here"
return { out = print }
