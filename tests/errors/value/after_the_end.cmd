lemel reckon '1 g + x'
