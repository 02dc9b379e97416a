lemel what jobs/links.json charge wax="1..3 g"
