lemel reckon 'inf g'
