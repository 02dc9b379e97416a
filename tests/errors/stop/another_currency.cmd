. "$(dirname "$0")/quote.sh"
quote consumables='12 EUR'
