printf '{ "file_version": 2, "prices": { "Au": [ "98.50 USD/g" ] } }' > prices.json
lemel check jobs/comma.json; lemel price Au "98.50 USD/g" --from "refiner" --at now
