lemel record jobs/links.json --all tree="25 inHg" --at 2026-11-26T14:20
