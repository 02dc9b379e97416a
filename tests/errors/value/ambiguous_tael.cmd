lemel reckon '1 tael'
