lemel record jobs/links.json charge "31 g" "585 ‰" --at 2026-11-26T14:20
