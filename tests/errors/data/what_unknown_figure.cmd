lemel what jobs/links.json chrge by wax="1..2 g"
