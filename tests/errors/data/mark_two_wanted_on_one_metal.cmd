lemel run mark place=UK body='10 g' body_fineness='930 ‰ Ag' \
    parts='[{ "what": "bezel", "mass": "1 g", "fineness": "760 ‰ Au", "mark": "750" }, { "what": "claws", "mass": "1 g", "fineness": "590 ‰ Au", "mark": "585" }]'
