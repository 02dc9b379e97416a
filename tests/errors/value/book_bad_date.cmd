lemel book jobs/links.json --at yesterday
