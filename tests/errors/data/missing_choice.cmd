lemel run hydrostatic in_air='11.420 g' in_water='10.549 g' temperature='22 °C'
