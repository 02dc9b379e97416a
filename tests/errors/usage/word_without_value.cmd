lemel run pour wax
