printf '{ "recipe": "cast", "given": { "wax": "1.9..2.1 g", "density": "15 g/cm3" }, "readings": [ { "wax": 5 } ] }' > jobs/read.json; lemel sure jobs/read.json charge --draws 200
