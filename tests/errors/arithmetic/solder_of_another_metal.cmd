# The solder of a silver piece, without its metal: a bare figure is gold.
lemel run old_metal scale_spread='0.01 g' credit_share='90 %' refiner='{"yield": "99 %", "payable": "97 %", "fee": "1 USD"}' prices='{"Ag": {"price": "1 USD/g", "at": "2026-11-24", "from": "list"}}' pieces='[{"name": "clasp", "gross": "10 g", "stamp": "925", "solder": {"share": "5 %", "fineness": "650 ‰"}}]'
