. "$(dirname "$0")/../stock.sh"
stock '"pour": "960 °C ± 20 °C"'
