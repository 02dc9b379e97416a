. "$(dirname "$0")/../bad_input.sh"
recipe=blank
cat >base <<'GOOD'
size=US 7
size_now=US 6
thickness=1.5 mm
width=3 mm
metal=Au750 yellow 3N
old_solder=none
kerf=0.3 mm
filing=0.3 mm
GOOD
try size 'US 7' 'US 0' 'US -7' 'US 7000' 'US 17' '7' 'EU 54' 'UK O' 'ISO 54' 'US M' -
try size_now 'US 7' 'US -6' 'US 6000' 'UK L' -
try thickness '0 mm' '-1.5 mm' '1500 mm' '1.5 in' '0.06 in' '5.1 mm' -
try width '0 mm' '-3 mm' '3000 mm' '3 in' '0.12 in' '1 mm' -
try metal 'Ag925 sterling' '750 ‰ Au' 'Au7500 yellow' -
try old_solder cadmium 'not known' silver -
try kerf '0 mm' '-0.3 mm' '300 mm' '0.3 in' '12 thou' '1.5 mm' -
try filing '0 mm' '-0.3 mm' '300 mm' '0.3 in' -
also 'awg=14'
also 'profile=round wire'
also 'stones=[{"kind": "opal"}]'
also 'size=US 8'
