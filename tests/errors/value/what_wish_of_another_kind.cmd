lemel what jobs/links.json charge="36 mm" by wax="1..3 g"
