lemel reckon 'Q"1 g" / 0'
