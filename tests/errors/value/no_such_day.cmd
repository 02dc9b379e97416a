lemel reckon '2026-02-30'
