. "$(dirname "$0")/quote.sh"
quote deposit_agreed='5000 USD'
