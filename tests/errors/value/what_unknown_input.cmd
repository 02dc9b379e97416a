lemel what jobs/links.json charge by wacks="1..3 g"
