lemel reckon 'craft.electrolysis_equivalent("Rh", 4294967299)'
