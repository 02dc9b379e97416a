-- want: BAD_RECIPE "which gives does not declare"
return { another = 1 }
