-- want: BAD_RECIPE "the text of an error is needed"
error({ __tostring = function () while true do end end })
