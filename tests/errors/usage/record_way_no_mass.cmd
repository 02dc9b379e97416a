lemel record jobs/links.json "rest of ring" way=returned fineness="750 ‰" owner=client --at 2026-11-26T14:20
