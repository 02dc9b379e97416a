sed -i 's/{ share = house.old }), { "charge" })/{ share = house.old }), { "charge" }, { always = true })/' recipes/cast.lua; lemel run jobs/links.json old="60 %"
