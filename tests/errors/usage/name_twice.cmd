lemel run cast wax="1 g" wax="2 g"
