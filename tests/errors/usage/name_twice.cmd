lemel run pour wax="1 g" wax="2 g"
