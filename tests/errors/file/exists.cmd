lemel recipes -o house.json
