. "$(dirname "$0")/slip.sh"
slip '22d'
