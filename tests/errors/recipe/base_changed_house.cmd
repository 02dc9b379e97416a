lemel new rule widen -q && sed -i 's/furthest up/up furthest/' recipes/.base/rule_widen.lua
d=$(dirname "$(readlink -f "$(command -v lemel)")")/share/lemel/recipes
sed 's/kerf/saw_cut/g' $d/wire.lua > recipes/wire.lua
lemel check -q house.json
