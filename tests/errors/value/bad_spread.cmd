lemel reckon '12 g ± 1 mL'
