lemel run flask tree='{"diameter": "44 mm", "height": "50 mm", "flask": "A"}'; lemel run charge
