-- want: BAD_RECIPE "'loadfile' is not known here"
return { out = loadfile }
