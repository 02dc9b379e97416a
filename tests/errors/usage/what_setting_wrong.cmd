lemel what jobs/links.json charge by wax="2..3 g" share=5
