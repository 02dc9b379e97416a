-- want: BAD_RECIPE "a key is a table"
for k in pairs { [{}] = 1 } do end
