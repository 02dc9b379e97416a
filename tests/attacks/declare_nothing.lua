-- want: BAD_RECIPE "does not return a recipe"
-- whole file
return 5
