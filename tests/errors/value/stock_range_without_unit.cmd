. "$(dirname "$0")/../stock.sh"
stock '"quench": "8..12"'
