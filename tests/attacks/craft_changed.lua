-- want: BAD_RECIPE "craft cannot be changed"
craft.density = nil
