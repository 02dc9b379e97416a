lemel reckon '1 g/°C'
