lemel confirm jobs/links.json cast/old --all --by O.F. --reason "looked up"
