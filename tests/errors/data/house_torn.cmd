# What the house's stock would have said is not told as a fault of the job.
printf '{ "name": ' > house.json
echo '{ "recipe": "need", "given": { "metal": "own mix", "wax": "2 g" } }' > j.json
lemel check j.json; lemel run j.json
