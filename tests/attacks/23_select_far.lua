-- want: OK "\"value\":0"
return { out = select("#", select(1 << 62, 1, 2, 3)) }
