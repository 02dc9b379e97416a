-- want: BAD_RECIPE "trade cannot be changed"
require("trade").figure = 5
