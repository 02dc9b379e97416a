printf '{ "file_version": 7, "name": "Loft", "benches": [] }' > house.json
lemel check house.json; lemel run jobs/comma.json
