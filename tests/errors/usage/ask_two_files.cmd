lemel ask jobs/links.json wax -o jobs/other.json
