-- want: OK
return { out = text.rep("x", -(1 << 62)) .. text.rep("x", 0) }
