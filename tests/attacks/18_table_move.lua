-- want: BAD_RECIPE "attempt to call a nil value (field 'move')"
table.move({}, 1, 1 << 50, 2)
