. "$(dirname "$0")/quote.sh"
quote client_fine_low='3 g Au' client_metal=credited tax_base='net of credit' credit_share='99 %' refiner='{"yield": "99 %", "payable": "97 %", "fee": "45 USD"}'
