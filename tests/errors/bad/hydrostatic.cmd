. "$(dirname "$0")/../bad_input.sh"
recipe=hydrostatic
cat >base <<'GOOD'
in_air=11.420 g
in_water=10.549 g
thread=0.001 g
temperature=22 °C
build=solid
claim=14 kt
family=yellow
scale_spread=0.002 g
altitude=0 m
GOOD
try in_air '0 g' '-11.420 g' '11420 g' '11.420 dwt' '57.1 ct' '11.420 oz_av' '7.343 dwt' '10.549 g' '11.420 mL' -
try in_water '0 g' '-10.549 g' '10549 g' '10.549 dwt' '52.745 ct' '11.420 g' -
try thread '0 g' '-0.001 g' '1 g' '1000 g' '0.001 oz_av' -
try temperature '0 °C' '-22 °C' '22000 °C' '22 °F' '72 °F' '40 °C' '41 °C' '22 Δ°C' -
try build 'with stones or other parts' gold -
try claim '0 kt' '-14 kt' '14000 kt' '1.6 ct' '585 ‰ Ag' '950 ‰ Pt' '18 kt' -
try family white -
try scale_spread '0 g' '-0.002 g' '2 g' '0.002 dwt' '0.2 g' -
try altitude '-1 m' '1000 m' '1000 km' '6562 ft' -
also 'gold_density=0 g/cm3'
also 'gold_density=-13 g/cm3'
also 'gold_density=13000 g/cm3'
also 'gold_density=13 kg/L'
also 'gold_density=13 lb/ft3'
also 'hides=[{"name": "sand", "density": "0 g/cm3"}]'
also 'hides=[{"name": "sand", "density": "1.6 g/cm3"}]'
also 'in_air=12 g'
