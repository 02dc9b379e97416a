lemel reckon '$45'
