-- want: BAD_RECIPE "'os' is not known here"
return { out = os.time() }
