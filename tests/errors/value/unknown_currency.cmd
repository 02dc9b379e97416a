lemel reckon '5 XYZ'
