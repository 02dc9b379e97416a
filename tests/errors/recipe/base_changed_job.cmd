lemel new rule widen -q && sed -i 's/furthest up/up furthest/' recipes/.base/rule_widen.lua
lemel new rule water -q && sed -i 's/the season/the weather/' recipes/.base/rule_water.lua
echo '{ "recipe": "oversize", "given": { "rings": [{ "name": "a", "size": "US 6", "width": "7 mm" }] } }' > jobs/ring.json
lemel check -q jobs/ring.json
