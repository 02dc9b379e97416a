lemel run wire metal="electrum"
