-- want: BAD_RECIPE "'warn' is not known here"
return { out = warn }
