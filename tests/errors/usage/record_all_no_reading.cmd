lemel record jobs/links.json --all tree --at 2026-11-26T14:20
