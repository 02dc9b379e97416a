# A gauge of absolute pressure cannot show more than the air outside.
lemel run vacuum altitude="2390 m" vacuum_gauge=absolute gauge="900 mbar abs" >&2
