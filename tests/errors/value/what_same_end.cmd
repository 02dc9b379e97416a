lemel what jobs/links.json charge by wax="3..3 g"
