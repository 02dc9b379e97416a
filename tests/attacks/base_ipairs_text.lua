-- want: BAD_RECIPE "needs a table or a list"
for _ in ipairs("x") do end
