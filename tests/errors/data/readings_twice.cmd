printf '{ "recipe": "cast", "given": { "wax": "2 g ± 0.1 g", "density": "15 g/cm3" }, "readings": [ { "wax": 5 }, { "wax": 6 } ] }' > jobs/read.json; lemel sure jobs/read.json charge --draws 200
