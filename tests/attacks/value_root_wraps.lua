-- want: BAD_RECIPE "no root of degree"
return { out = root(Q "4 mm2", (1 << 32) + 2) }
