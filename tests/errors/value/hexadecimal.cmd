lemel reckon '0x10 g'
