lemel batch jobs/links.json --keep not/there
