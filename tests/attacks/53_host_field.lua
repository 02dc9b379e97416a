-- want: BAD_RECIPE "cannot be changed"
local q = Q "1 g"
q.up_to = nil
