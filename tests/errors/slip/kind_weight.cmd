. "$(dirname "$0")/slip.sh"
slip '5s/ask.time/ask.weight/'
