lemel reckon '1 g + 2'
