lemel run need metal="fine gold"
