-- want: BAD_RECIPE "'rawset' is not known here"
return { out = rawset }
