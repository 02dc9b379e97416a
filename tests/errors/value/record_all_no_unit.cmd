lemel record jobs/links.json --all tree=31 --at 2026-11-26T14:20
