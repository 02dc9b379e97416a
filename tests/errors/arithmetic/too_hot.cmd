lemel reckon 'Q"1e99 °C" + Q"1e200 Δ°C"'
