-- want: BAD_RECIPE "ask cannot be changed"
ask.mass = function () return {} end
