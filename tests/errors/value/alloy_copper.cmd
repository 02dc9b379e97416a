lemel run need metal="copper"
