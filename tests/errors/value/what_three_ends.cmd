lemel what jobs/links.json charge by wax="1..2..3 g"
