-- want: OK "9.223372036854776e18 g"
-- Wrapped round it would be below zero.
return { out = tostring(Q "1 g" * 9223372036854775807) }
