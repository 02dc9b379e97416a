lemel reckon '40 percent'
