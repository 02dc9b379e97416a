. "$(dirname "$0")/quote.sh"
quote hours='{"bench": "0 h"}' finished='0 g'
