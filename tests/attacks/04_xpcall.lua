-- want: BAD_RECIPE "'xpcall' is not known here"
xpcall(function () while true do end end, function () while true do end end)
