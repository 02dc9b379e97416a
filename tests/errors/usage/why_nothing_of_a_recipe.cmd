lemel why jobs/links.json cast.
