# A job without old metal has no receipt; nor has one with a recipe that is not there.
echo '{ "recipe": "remake", "given": { "metal": "Au750 yellow 3N", "wax": "2 g" } }' > j.json
lemel run j.json --recipe receipt --sheet receipt; lemel run j.json --recipe recipt; lemel run j.json --recipe ""
