. "$(dirname "$0")/../bad_input.sh"
recipe=oversize
ring() { printf '[{"name": "a", "size": "%s", "width": "%s", "thickness": "%s"}]' "$1" "$2" "$3"; }
cat >base <<GOOD
rings=$(ring 'US 7' '4 mm' '1.8 mm')
metal=Au750 yellow 3N
shrink_stages=[{"at": "wax", "by": "1 %"}]
metal_shrinkage=1.3 %
finish_inside=0.08 mm
finish_outside=0.1 mm
finish_sides=0.05 mm
polish_inside=0.01 mm
size_window=0.05 mm
least_wall=1.5 mm
wax_density=0.96 g/cm3
GOOD
try rings '[]' "$(ring 'US 7' '4 mm' '1.8 mm')" "$(ring 'US -7' '4 mm' '1.8 mm')" "$(ring 'US 7000' '4 mm' '1.8 mm')" "$(ring 'EU 54' '4 mm' '1.8 mm')" -
try rings "$(ring 'US 7' '0 mm' '1.8 mm')" "$(ring 'US 7' '-4 mm' '1.8 mm')" "$(ring 'US 7' '4000 mm' '1.8 mm')" "$(ring 'US 7' '4 in' '1.8 mm')"
try rings "$(ring 'US 7' '4 mm' '0 mm')" "$(ring 'US 7' '4 mm' '-1.8 mm')" "$(ring 'US 7' '4 mm' '1800 mm')" "$(ring 'US 7' '4 mm' '1.8 in')" "$(ring 'US 7' '1.8 mm' '4 mm')"
try rings '[{"name": "a", "size": "US 7", "pattern": "0 mm"}]' '[{"name": "a", "size": "US 7", "pattern": "-17 mm"}]' '[{"name": "a", "size": "US 7", "pattern": "17500 mm"}]' '[{"name": "a", "size": "US 7", "pattern": "17.8 in"}]' '[{"name": "a", "size": "US 7", "pattern": "17.8 mm"}]'
try rings '[{"name": "a", "size": "US 7"}, {"name": "a", "size": "US 8"}]' '[{"name": "a", "size": "US 7"}]'
try metal 'Ag925 sterling' '750 ‰ Au' -
try shrink_stages '[]' '[{"at": "wax", "by": "0 %"}]' '[{"at": "wax", "by": "-1 %"}]' '[{"at": "wax", "by": "1000 %"}]' '[{"at": "wax", "by": "1 %"}, {"at": "wax", "by": "1 %"}]' -
try metal_shrinkage '0 %' '-1.3 %' '1300 %' '1.3' '1.3 mm' -
try finish_inside '0 mm' '-0.08 mm' '80 mm' '0.08 in' '3 thou' -
try finish_outside '0 mm' '-0.1 mm' '100 mm' '0.1 in' -
try finish_sides '0 mm' '-0.05 mm' '50 mm' '0.05 in' -
try polish_inside '0 mm' '-0.01 mm' '10 mm' '0.01 in' -
try size_window '0 mm' '-0.05 mm' '50 mm' '0.05 in' -
try least_wall '0 mm' '-1.5 mm' '1500 mm' '1.5 in' -
try wax_density '0 g/cm3' '-0.96 g/cm3' '960 g/cm3' '0.96 g/L' '960 kg/m3' -
also 'wide_bands=[{"from": "4 mm", "add": 0, "of": "US"}]'
also 'wide_bands=[{"from": "4 mm", "add": -0.25, "of": "US"}]'
also 'wide_bands=[{"from": "4 mm", "add": 250, "of": "US"}]'
also 'wide_bands=[{"from": "4 in", "add": 0.25, "of": "EU"}]'
also 'metal_shrinkage=2 %'
