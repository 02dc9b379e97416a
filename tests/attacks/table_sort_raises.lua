-- want: BAD_RECIPE "from inside"
table.sort({ 3, 2, 1 }, function () error("from inside") end)
