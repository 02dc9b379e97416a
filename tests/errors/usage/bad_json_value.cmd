lemel run cast 'lots=[1'
