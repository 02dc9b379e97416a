-- want: BAD_RECIPE "'load' is not known here"
return { out = load(text.rep("x", 3), "b", "b") }
