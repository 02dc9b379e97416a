lemel reckon '5 kozt'
