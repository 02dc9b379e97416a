lemel reckon 'Q"1 USD" + Q"1 CAD"'
