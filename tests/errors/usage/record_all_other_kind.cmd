lemel record jobs/links.json --all tree="3 min" charge="3 min" --at 2026-11-26T14:20
