lemel record jobs/links.json charge "14 kt" --at 2026-11-26T14:20
