lemel reckon '1 g/cm3/s'
