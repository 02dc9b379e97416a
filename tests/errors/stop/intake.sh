# pieces JSON: what the intake stops and asks of them.
pieces() {
    lemel run old_metal scale_spread='0.01 g' credit_share='90 %' refiner='{"yield": "99 %", "payable": "97 %", "fee": "1 USD"}' \
        prices='{"Au": {"price": "90 USD/g", "at": "2026-11-24", "from": "list"}, "Ag": {"price": "1 USD/g", "at": "2026-11-24", "from": "list"}}' \
        pieces="$1" --sheet bench -q >sheet 2>&1
    status=$?
    awk '/^(STOP|ASK) |^    The price list has no/ { on = 1 } on { print } /\]$/ { on = 0 }' sheet >&2
    return $status
}
