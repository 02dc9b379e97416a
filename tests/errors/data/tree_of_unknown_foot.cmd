lemel run flask tree='{"diameter": "44 mm", "height": "50 mm"}' flasks='[{"name": "A", "diameter": "63.5 mm", "height": "63.5 mm"}]'
