-- want: BAD_RECIPE "'load' is not known here"
return { out = load("return _ENV")() }
