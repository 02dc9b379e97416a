lemel reckon 'Q"20 °C" + Q"30 °C"'
