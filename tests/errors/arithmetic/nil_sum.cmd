lemel reckon 'Q"1 g" + wax'
