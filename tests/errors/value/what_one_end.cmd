lemel what jobs/links.json charge by wax="2 g"
