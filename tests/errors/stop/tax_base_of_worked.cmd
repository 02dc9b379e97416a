# The client's metal is credited, but the house taxes as if it stayed theirs.
. "$(dirname "$0")/quote.sh"
quote client_metal=credited client_fine_low='3 g Au' credit_share='90 %' tax_base='work and added material' refiner='{"yield": "99 %", "payable": "97 %", "fee": "5 USD"}'
