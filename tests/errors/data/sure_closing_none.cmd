lemel sure jobs/links.json charge --closing
