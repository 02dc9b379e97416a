lemel run xyzzyfoo
