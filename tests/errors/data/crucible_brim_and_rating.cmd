echo "{}" >house.json
lemel run need metal="Au750 yellow 3N" wax="1 g" sprues="0.2 g" button="9 g" use_crucible=A crucibles='[{"name": "A", "material": "graphite", "brim": "14 mL", "rating": "300 g", "rated_in": "Au999.9 fine"}]'
