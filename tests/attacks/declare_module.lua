-- want: BAD_RECIPE
-- whole file
return require "trade"
