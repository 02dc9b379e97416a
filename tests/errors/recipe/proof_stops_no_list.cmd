sed 's/expect = {/stops = "crucible", expect = {/' recipes/cast.lua > r.lua
lemel check r.lua
