lemel sure jobs/links.json --draws 12
