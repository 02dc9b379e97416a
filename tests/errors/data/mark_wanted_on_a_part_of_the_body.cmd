lemel run mark place=UK body='10 g' body_fineness='760 ‰ Au' parts='[{ "what": "bezel", "mass": "1 g", "fineness": "590 ‰ Au", "mark": "585" }]'
