lemel check --sheet bench jobs/links.json
