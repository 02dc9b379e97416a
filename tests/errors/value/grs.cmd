lemel reckon '5 grs'
