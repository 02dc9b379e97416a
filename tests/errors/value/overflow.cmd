lemel reckon '1e400 g'
