# The house has a rate for setting and none for the bench.
. "$(dirname "$0")/quote.sh"
quote rates='{"setting": "85 USD/h"}'
