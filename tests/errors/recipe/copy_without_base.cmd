d=$(dirname "$(readlink -f "$(command -v lemel)")")/share/lemel/recipes
sed 's/the season/the weather/; 1s/^/-- ours\n/' $d/rule_water.lua > recipes/rule_water.lua
sed '/^  uses/s/, "rule_oversize"//; s/How much larger/Our way: how much larger/' $d/oversize.lua > recipes/oversize.lua
lemel check -q oversize rule_water
