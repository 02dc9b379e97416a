echo "{}" >house.json
lemel run need metal="Au750 yellow 3N" patterns='[]' sprues="0.2 g" button="9 g" use_crucible=A crucibles='[{"name": "A", "material": "graphite", "rating": "300 g"}]'
