lemel run need metal="gold fine"
