-- want: BAD_RECIPE "'rawlen' is not known here"
return { out = rawlen }
