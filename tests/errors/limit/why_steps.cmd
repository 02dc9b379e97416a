lemel why jobs/links.json charge --steps 1
