lemel reckon '4e307 °F'
