lemel reckon '1 floz'
