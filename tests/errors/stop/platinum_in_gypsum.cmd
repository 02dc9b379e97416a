# Platinum in a gypsum-bonded mould.
lemel run melt metal='Pt950 cobalt' charge='20 g' crucibles='[{"name": "z", "material": "zirconia", "mass": "200 g", "brim": "9 cm3", "allowed": ["platinum"]}]' furnaces='[{"name": "coil", "power": "4 kW", "efficiency": "50 %", "most": "2100 °C", "stores": "0 kJ"}]' --sheet bench -q >sheet 2>&1
status=$?
awk '/^(STOP|ASK) / { on = 1 } on { print } /\]$/ { on = 0 }' sheet >&2
exit $status
