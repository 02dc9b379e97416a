lemel run jobs/links.json --at 2026-12-01
