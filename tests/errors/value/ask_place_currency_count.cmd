echo '{ "currency": "AUD", "name": "x" }' >house.json; printf '%s\n' Narnia Victoria Georgia Bavaria Brazil AU-VIC | lemel ask house.json place | sed -n '/Where/,$p' >&2
echo '{ "place": "AU-VIC" }' >house.json; printf '%s\n' 'A$' AUD | lemel ask house.json currency | sed -n '/Its/,$p' >&2
echo '{ "place": "GB", "currency": "£" }' >house.json; lemel check house.json
echo '{ "place": "DE", "currency": "kr" }' >house.json; lemel check house.json
echo '{ "place": "DE", "currency": "EUR" }' >house.json; printf '{ "recipe": "remake", "made": "lemel ask", "given": { "metal": "Au585 yellow", "patterns": [{ "name": "A", "wax": "2 g" }] } }' >j.json; printf '%s\n' '15 mL' three '!' | lemel ask j.json 'patterns[0].count' | sed -n '/How many/,$p' >&2
