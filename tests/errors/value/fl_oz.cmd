lemel reckon '1 fl oz'
