sed -i 's/"given"/"house": { "old": "60 %" },\n  "given"/' jobs/links.json; lemel confirm jobs/links.json cast/old --all --until 2026-12-31 --by O.F. --reason "looked up"
