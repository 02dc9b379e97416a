lemel reckon
