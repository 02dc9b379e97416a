lemel reckon '5 gm'
