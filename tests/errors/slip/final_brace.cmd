. "$(dirname "$0")/slip.sh"
slip '28d'
