# The client's metal is credited, and the house does not say what is taxed then.
. "$(dirname "$0")/quote.sh"
quote client_metal=credited client_fine_low='3 g Au' credit_share='90 %' refiner='{"yield": "99 %", "payable": "97 %", "fee": "5 USD"}'
