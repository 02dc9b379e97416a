cp recipes/cast.lua tin.lua && lemel adopt tin.lua --merge
