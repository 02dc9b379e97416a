-- want: BAD_RECIPE "'collectgarbage' is not known here"
return { out = collectgarbage }
