sed 's/expect = {/stop = {}, expect = {/' recipes/cast.lua > r.lua
lemel check r.lua
