lemel sure jobs/links.json chrage wax="2 g ± 0.1 g"
