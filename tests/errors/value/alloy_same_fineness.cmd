lemel run wire metal="pink 14 kt"
