lemel run cast wax='2 g' density='15 g/cm3' crucible='10 cm3' share=95
