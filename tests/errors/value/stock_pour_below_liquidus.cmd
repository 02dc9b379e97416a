. "$(dirname "$0")/../stock.sh"
stock '"pour": "840..900 °C"'
