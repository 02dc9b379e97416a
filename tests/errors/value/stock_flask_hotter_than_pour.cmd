. "$(dirname "$0")/../stock.sh"
stock '"pour": "940..980 °C", "flask": "480..950 °C"'
