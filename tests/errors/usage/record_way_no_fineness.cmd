lemel record jobs/links.json "rest of ring" "8.62 g" way=returned owner=client --at 2026-11-26T14:20
