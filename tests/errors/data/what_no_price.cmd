lemel what jobs/links.json charge by prices.Xx="90..110 USD/g"
