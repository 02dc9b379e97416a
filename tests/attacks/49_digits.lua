-- want: OK "0.30000000000000004"
return { out = tostring(0.1 + 0.2) }
