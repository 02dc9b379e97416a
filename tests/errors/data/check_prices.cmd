printf '%s\n' '{ "prices": {' '  "Au": { "price": "98 USD", "at": "2026-11-24", "from": "" },' '  "Ag": { "price": "1 USD/g" } } }' > prices.json; lemel check prices.json
