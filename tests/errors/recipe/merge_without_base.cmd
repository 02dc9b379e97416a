lemel new rule widen -q && rm -r recipes/.base && lemel adopt recipes/rule_widen.lua --merge
