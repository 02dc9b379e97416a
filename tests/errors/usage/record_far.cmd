lemel record jobs/links.json charge "300 g" --at 2026-11-26T14:20
