-- want: BAD_RECIPE "is joined to a text by .."
return { out = 1 .. Q "1 g" }
