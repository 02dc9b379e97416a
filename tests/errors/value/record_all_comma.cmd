lemel record jobs/links.json --all tree="31,02 g" --at 2026-11-26T14:20
