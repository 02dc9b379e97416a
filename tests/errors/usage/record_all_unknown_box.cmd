lemel record jobs/links.json --all tre="1 g" --at 2026-11-26T14:20
