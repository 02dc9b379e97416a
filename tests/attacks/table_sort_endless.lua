-- want: LIMIT "did more work than it is allowed"
table.sort({ 3, 2, 1 }, function () while true do end end)
