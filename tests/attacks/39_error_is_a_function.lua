-- want: BAD_RECIPE "the text of an error is due"
error(function () while true do end end)
