lemel run --house
