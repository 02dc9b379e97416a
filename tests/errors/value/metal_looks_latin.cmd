lemel reckon '750 ‰ Аu'
