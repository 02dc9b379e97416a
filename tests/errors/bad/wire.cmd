. "$(dirname "$0")/../bad_input.sh"
recipe=wire
cat >base <<'GOOD'
thickness=1 mm
ring_inside=6 mm
rings_wanted=40
length=1 m
metal=Ag925 sterling
kerf=0.3 mm
springback=2 %
GOOD
try thickness '1 mm' '0 mm' '-1 mm' '1000 mm' '1 in' '18 mm' -
try ring_inside '0 mm' '-6 mm' '6000 mm' '6 in' '0.24 in' -
try rings_wanted 0 -40 40000 40000000 '2.5' -
try length '0 m' '-1 m' '1000 m' '1 ft' '40 in' -
try metal 'Ag999 fine' '925 ‰ Ag' 'Au750 yellow 3N' -
try kerf '0 mm' '-0.3 mm' '300 mm' '0.3 in' '12 thou' -
try springback '0 %' '-2 %' '2000 %' '2' -
also 'awg=18'
also 'mass=8 g'
also 'mandrel=6 mm'
also 'wall=0.2 mm'
also 'width=2 mm'
also 'thickness=2 mm'
