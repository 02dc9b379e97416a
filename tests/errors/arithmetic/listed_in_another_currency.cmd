# The price list is in USD, and the grain was bought in euros.
lemel run charge mass='10 g' target='750 ‰' scale_step='0.01 g' date=2026-11-24 prices='{"Au": {"price": "95 USD/g", "at": "2026-11-24T09:00", "from": "list"}}' lots='[{"name": "fine", "metal": "999.9 ‰ Au"}, {"name": "grain", "metal": "585 ‰", "price": "50 EUR/g"}]'
