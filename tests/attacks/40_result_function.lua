-- want: BAD_RECIPE "cannot be passed on"
return { out = function () end }
