lemel reckon '14 K'
