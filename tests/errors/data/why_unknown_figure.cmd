lemel why jobs/links.json chrage
