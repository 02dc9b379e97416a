-- want: BAD_RECIPE "gives back no recipe"
-- whole file
return 5
