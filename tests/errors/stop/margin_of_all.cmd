. "$(dirname "$0")/quote.sh"
profit="margin=100 %"
quote
