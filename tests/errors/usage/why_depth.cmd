lemel why jobs/links.json charge --depth 0
