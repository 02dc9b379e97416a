-- want: BAD_RECIPE "the text of an error is due"
error({ __tostring = function () while true do end end })
