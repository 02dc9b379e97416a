. "$(dirname "$0")/quote.sh"
quote hours='{}'
