lemel reckon '25:00'
