# A space of no width, as it comes along from a page.
printf '{ "recipe": "cast", "title": "Cuff\342\200\213 links", "given": { "wax": "2 g", "density": "15 g/cm3" } }\n' > j.json
lemel run j.json
