lemel run pour a..b=1
