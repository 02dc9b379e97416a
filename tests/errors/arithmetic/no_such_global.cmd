lemel reckon 'foo()'
