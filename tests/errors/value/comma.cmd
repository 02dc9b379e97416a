lemel reckon '1,5 g'
