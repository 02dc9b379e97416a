lemel why jobs/links.json charge wax="20 g"
