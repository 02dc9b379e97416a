lemel record jobs/links.json "rest of ring" "8.62 g" way=returned fineness="750 ‰" --at 2026-11-26T14:20
