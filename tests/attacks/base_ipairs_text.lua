-- want: BAD_RECIPE "takes a table or a list"
for _ in ipairs("x") do end
