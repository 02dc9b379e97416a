. "$(dirname "$0")/../stock.sh"
stock '"superheat": "50..100 °C"'
