lemel reckon '1 cal'
