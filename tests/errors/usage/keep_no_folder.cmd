lemel batch jobs/links.json --keep house.json
