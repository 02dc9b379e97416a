lemel reckon '1 J/g*K'
