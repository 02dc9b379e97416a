-- want: BAD_RECIPE "'getmetatable' is not known here"
getmetatable("").__index = function () return "x" end
