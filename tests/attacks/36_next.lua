-- want: BAD_RECIPE "'next' is not known here"
return { out = next }
