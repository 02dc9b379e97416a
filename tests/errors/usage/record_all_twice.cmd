lemel record jobs/links.json --all tree="1 g" tree="2 g" --at 2026-11-26T14:20
