-- want: BAD_RECIPE "the text of an error is needed"
error(function () while true do end end)
