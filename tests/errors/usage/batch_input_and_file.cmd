lemel batch - jobs/links.json
