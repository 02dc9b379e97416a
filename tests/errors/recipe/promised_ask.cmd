sed 's/wax *= ask.mass *{/wax = ask.mass { promised = true,/' recipes/cast.lua >recipes/kept.lua
lemel inspect kept
