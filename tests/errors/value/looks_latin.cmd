lemel reckon '5 Аu'
