lemel run learn allowance=wax_density
