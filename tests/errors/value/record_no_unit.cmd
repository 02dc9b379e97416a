lemel record jobs/links.json charge 31.02 --at 2026-11-26T14:20
