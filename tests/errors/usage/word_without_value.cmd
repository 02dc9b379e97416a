lemel run cast wax
