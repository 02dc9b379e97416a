. "$(dirname "$0")/../stock.sh"
stock '"pour": "1000..1020 °C", "superheat": "50..60 Δ°C"'
