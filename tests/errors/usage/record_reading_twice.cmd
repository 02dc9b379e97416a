lemel record jobs/links.json charge "31 g" mass="31 g" --at 2026-11-26T14:20
