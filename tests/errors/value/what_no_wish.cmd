lemel what jobs/links.json charge= by wax="1..3 g"
