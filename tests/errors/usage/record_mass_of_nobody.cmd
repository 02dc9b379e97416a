lemel record jobs/links.json tre "40.1 g" --at 2026-11-26T14:20
