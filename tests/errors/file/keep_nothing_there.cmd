lemel compare cast cast jobs/links.json --keep kept
