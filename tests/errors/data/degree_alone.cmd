lemel run flask slurry_temperature='22 °'
