-- want: LIMIT
for i = 1, 20000 do sheet.bench:text(("x"):rep(1900)) end
return {}
