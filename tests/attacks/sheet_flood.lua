-- want: LIMIT
while true do sheet.bench:line("x", Q "1 g") end
