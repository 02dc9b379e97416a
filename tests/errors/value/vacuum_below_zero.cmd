lemel run pour charge='30 g' metal='Au750 yellow 3N' flask_wanted='560 °C' flask_hold='60 min' gauge='-0.83 bar'
