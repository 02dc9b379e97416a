. "$(dirname "$0")/quote.sh"
quote prices='{}'
