lemel run cast a..b=1
