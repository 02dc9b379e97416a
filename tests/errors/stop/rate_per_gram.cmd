. "$(dirname "$0")/quote.sh"
quote rates='{"bench": "65 USD/g"}'
