lemel reckon 'Q"1 g Au" + Q"1 g Ag"'
