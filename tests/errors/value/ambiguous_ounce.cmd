lemel reckon '1 oz'
