lemel again r.json jobs/links.json wax
