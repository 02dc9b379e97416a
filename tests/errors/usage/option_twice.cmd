lemel run --sheet a --sheet b
