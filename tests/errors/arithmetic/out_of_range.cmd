lemel reckon 'Q"1e300 g" * 1e10'
