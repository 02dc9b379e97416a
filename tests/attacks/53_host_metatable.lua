-- want: BAD_RECIPE "'getmetatable' is not known here"
getmetatable(Q "1 g").__add = nil
