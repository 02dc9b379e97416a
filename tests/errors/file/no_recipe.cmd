lemel run poor
