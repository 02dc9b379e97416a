lemel sure jobs/links.json charge wax="20 g ± 0.1 g"
