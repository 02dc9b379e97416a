. "$(dirname "$0")/slip.sh"
line 'local fee = labour + Q "25.00 EUR"'
