lemel reckon 'Q"750 ‰ Au" + Q"1 g"'
