. "$(dirname "$0")/../stock.sh"
stock '"quench": "-2..8 min"'
