-- want: BAD_RECIPE
-- whole file
return _ENV
