lemel run jobs/links.json wax.depth="1 mm"
