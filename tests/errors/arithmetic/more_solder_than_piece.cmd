# The line in the recipe is not what is held fast here.
lemel run old_metal scale_spread='0.01 g' credit_share='90 %' refiner='{"yield": "99 %", "payable": "97 %", "fee": "45 USD"}' prices='{"Au": {"price": "90 USD/g", "at": "2026-11-24", "from": "list"}}' pieces='[{"name": "chain", "gross": "10 g", "stamp":"18K", "solder": {"joints": 400, "each": "40 mg", "fineness": "500 ‰"}}]' 2>said
status=$?
sed "s/lua:[0-9]*:/lua:/" said >&2
exit $status
