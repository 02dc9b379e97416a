. "$(dirname "$0")/../bad_input.sh"
recipe=plate
cat >base <<'GOOD'
bath=gold, cyanide
area=8 cm2
count=2
thickness=0.25 µm
current=0.064 A
acid_near=false
cyanide_near=false
bath_acid=false
layer_fineness=750 ‰
layer_density=15.4 g/cm3
undercoat=none
bath_temperature=50 °C
loads_done=3
efficiency=90 %
detail=1.2
tank.volume=2 L
tank.strength=4 g/L
tank.floor=2 g/L
tank.concentrate=40 g/L
drag_out=0.4 mL
GOOD
try bath 'gold, cyanide' silver -
try area '0 cm2' '-8 cm2' '8000 cm2' '8 in2' '8 mm' -
try count 0 -2 2000 '1.5' -
try thickness '0 µm' '-0.25 µm' '250 µm' '0.25 µin' '10 µin' '0.25 mm' -
try current '0 A' '-0.064 A' '64 A' '64 mA' '0.064 V' -
try acid_near true -
try cyanide_near true -
try layer_fineness '0 ‰' '-750 ‰' '750000 ‰' '750 ‰ Ag' '18K' '999 ‰' -
try layer_density '0 g/cm3' '-15.4 g/cm3' '15400 g/cm3' '15.4 g/L' '15.4 kg/L' '10.5 g/cm3' -
try bath_temperature '0 °C' '-50 °C' '50000 °C' '50 °F' '122 °F' -
try loads_done 0 -3 3000 3000000 -
try efficiency '0 %' '-90 %' '90000 %' '0.9' '9 %' -
try detail 0 -1.2 1200 -
try tank.volume '0 L' '-2 L' '2000 L' '2 mL' '2 floz_us' -
try tank.strength '0 g/L' '-4 g/L' '4000 g/L' '4 g/cm3' -
try tank.floor '0 g/L' '-2 g/L' '2000 g/L' '2 g/cm3' -
try tank.concentrate '0 g/L' '-40 g/L' '40000 g/L' '40 g/cm3' -
try drag_out '0 mL' '-0.4 mL' '400 mL' '0.4 L' '0.4 floz_us' -
also 'flat={"mass": "3 g", "metal": "Au750 yellow 3N", "thickness": "1 mm"}'
also 'plain_band={"inside": "17 mm", "outside": "20 mm", "width": "4 mm"}'
also 'current_density=0.4 A/dm2'
also 'current_density=4 A/dm2'
also 'current_density=0.4 A/ft2'
also 'current_density=-0.4 A/dm2'
also 'current_density=0 A/dm2'
also 'strip={"gain": "0 mg", "current": "0.1 A", "time": "60 s"}'
also 'strip={"gain": "11 mg", "current": "0.1 A", "time": "60 s"}'
also 'strip={"gain": "11 g", "current": "0.1 A", "time": "60 s"}'
also 'time_in=0 s'
also 'time_in=-60 s'
also 'time_in=60 s'
also 'time_in=60 h'
also 'base_metal=Au750 nickel white'
also 'nickel_free=true'
also 'area=9 cm2'
