lemel record jobs/links.json charge "3 min" --at 2026-11-26T14:20
