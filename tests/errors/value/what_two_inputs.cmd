lemel what jobs/links.json charge by wax="1..3 g" by density="14..16 g/cm3"
