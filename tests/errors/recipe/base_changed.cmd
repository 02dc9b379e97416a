lemel new rule widen -q && sed -i 's/furthest up/up furthest/' recipes/.base/rule_widen.lua && lemel check recipes/rule_widen.lua -q
