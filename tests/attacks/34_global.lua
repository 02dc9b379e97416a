-- want: BAD_RECIPE "is set as a global"
x = 1
