lemel sure jobs/links.json charge wax="2 g ± 0.1 g" --draws 100 --steps 10
