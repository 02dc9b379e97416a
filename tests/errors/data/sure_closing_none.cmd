lemel sure jobs/links.json charge wax="2 g ± 0.1 g" --closing
