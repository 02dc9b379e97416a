lemel what jobs/links.json charge by wax
