# Stamps of platinum, palladium and silver on what weighs otherwise under water: white gold, silver, nickel silver.
weighed() {
    lemel run old_metal scale_spread='0.01 g' credit_share='90 %' refiner='{"yield": "99 %", "payable": "97 %", "fee": "1 USD"}' \
        prices='{"'"$1"'": {"price": "30 USD/g", "at": "2026-11-24", "from": "list"}}' \
        pieces='[{"name": "ring", "gross": "20 g", "stamp": "'"$2"'", "wish": "melt", "tests": [{"method": "density", "air": "20 g", "water": "'"$3"'"}]}]' \
        --sheet bench -q >sheet 2>&1
    status=$?
    awk '/^(STOP|ASK) / { on = 1 } on { print } /\]$/ { on = 0 }' sheet >&2
    return $status
}
weighed Pt '950 PLAT' '18.633 g'
weighed Pd '950 PALLADIUM' '18.062 g'
weighed Ag STERLING '17.705 g'
