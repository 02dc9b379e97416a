lemel reckon '3063 USD/oz'
