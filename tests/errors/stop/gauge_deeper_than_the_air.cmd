# A depth of vacuum is no deeper than the air outside.
lemel run vacuum altitude="2390 m" vacuum_gauge=depth gauge="29 inHg vac" >&2
