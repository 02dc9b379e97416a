lemel run cast wax='2 g' density='15 g/cm3' crucible='10 cm3' wax_density='1 g/in3' wish='2.5"' old='5"'
