. "$(dirname "$0")/slip.sh"
slip '9s/"15 min"/‘15 min’/'
