lemel run wire metal="Au"
