lemel reckon '1 Btu'
