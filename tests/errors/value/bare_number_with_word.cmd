lemel reckon '5 grammes'
