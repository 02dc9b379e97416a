. "$(dirname "$0")/../stock.sh"
stock '"pour": "980..940 °C"'
