lemel run
