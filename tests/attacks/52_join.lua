-- want: BAD_RECIPE "cannot be joined to a text with .."
return { out = 1 .. Q "1 g" }
