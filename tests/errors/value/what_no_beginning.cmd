lemel what jobs/links.json charge by wax="..3 g"
