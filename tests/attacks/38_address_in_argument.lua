-- want: BAD_RECIPE "bad argument"
return { out = text.sub("x", {}) }
