lemel reckon '5 gr'
