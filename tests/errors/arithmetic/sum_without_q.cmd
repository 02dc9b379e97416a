lemel reckon '2 g + 3 g'
