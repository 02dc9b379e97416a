lemel run old_metal scale_spread='0.01 g' pieces='[]'
