lemel reckon '45 €'
