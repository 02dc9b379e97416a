# 999 is not 999.9: the name is not completed.
printf '%s' '{"recipe":"wire","given":{"thickness":"1 mm","width":"1 mm","length":"100 mm","metal":"Au999"}}' >jobs/w.json; lemel run jobs/w.json
