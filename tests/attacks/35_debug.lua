-- want: BAD_RECIPE "'debug' is not known here"
return { out = debug }
