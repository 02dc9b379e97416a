lemel new rule widen -q && sed -i 's/else lemel/or lemel/' recipes/.base/rule_widen.lua && lemel check recipes/rule_widen.lua -q
