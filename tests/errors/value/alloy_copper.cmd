lemel run need metal="fine copper"
