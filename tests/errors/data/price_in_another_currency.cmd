rm -f prices.json; echo '{ "name": "A", "currency": "CAD" }' > house.json; lemel price Au "195 USD/g" --at 2026-12-30T09:00 --from "refiner, buying"
