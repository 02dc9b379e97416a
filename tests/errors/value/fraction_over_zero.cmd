lemel reckon '1/0 g'
