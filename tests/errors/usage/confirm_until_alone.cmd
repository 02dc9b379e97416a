lemel confirm jobs/links.json cast/old --until 2026-12-31 --by O.F. --reason "looked up"
