lemel run need metal="Ag fine"
