lemel xyzzyfoo
