-- want: BAD_RECIPE "'dofile' is not known here"
return { out = dofile }
