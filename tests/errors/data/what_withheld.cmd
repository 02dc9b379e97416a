lemel what jobs/links.json charge by density="14..16 g/cm3" wax="20 g"
