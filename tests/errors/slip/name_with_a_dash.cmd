. "$(dirname "$0")/slip.sh"
slip '9s/begun/begun-by/'
