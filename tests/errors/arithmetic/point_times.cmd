lemel reckon 'Q"20 °C" * 2'
