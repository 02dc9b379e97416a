. "$(dirname "$0")/slip.sh"
slip '8s/ask.price/ask.percent/'
