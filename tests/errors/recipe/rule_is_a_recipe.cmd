sed 's/title = ".*"/title = "Hours"/' recipes/cast.lua > recipes/rule_hours.lua; lemel check recipes/rule_hours.lua
