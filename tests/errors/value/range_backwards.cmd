lemel reckon '5..3 g'
