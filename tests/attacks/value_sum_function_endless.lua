-- want: LIMIT "did more work than it is allowed"
sum({ 1, 2 }, function () while true do end end)
