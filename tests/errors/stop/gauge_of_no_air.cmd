# And no pump takes all of it away.
lemel run vacuum altitude="2390 m" vacuum_gauge=absolute gauge="0 mbar abs" >&2
