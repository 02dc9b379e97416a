# Old nickel white has to go in, and no model knows gold with nickel, copper and silver.
. "$(dirname "$0")/remake.sh"
asks charge-melts "$examples/jobs/red-ring.json" \
    metal='{"composition": {"Au": "585 ‰", "Ag": "90 ‰", "Cu": "325 ‰"}, "liquidus": "900 °C", "density": "13.2 g/cm3", "source": "invented"}' \
    lots='[{"name": "fine gold", "metal": "fine gold", "price": "100.47 USD/g"}, {"name": "copper", "metal": "Cu fine", "price": "0.02 USD/g"}, {"name": "old white", "metal": {"Au": "585 ‰", "Ni": "150 ‰", "Cu": "200 ‰", "Zn": "65 ‰"}, "mass": "5 g", "use": "all", "price": "50 USD/g"}]'
