lemel reckon 'Q"1 g" + Q"1 mL"'
