lemel run pour 'lots=[1'
