rm house.json
mkfifo house.json
lemel run jobs/links.json
