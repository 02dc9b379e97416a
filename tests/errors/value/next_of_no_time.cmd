lemel reckon 'Q"2026-11-24T14:20":next "2026-11-28"'
