-- want: BAD_RECIPE "is set as a global"
Q = function () return 1 end
