-- want: BAD_RECIPE "needs a separator"
text.split("abc", "")
