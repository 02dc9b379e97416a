lemel record -q jobs/links.json chain "9 g" way=in owner=client fineness="585 ‰" --at 2026-11-26T11:05 && lemel record jobs/links.json clasp "1 g" from=chain way=returned --at 2026-11-26T10:50
