. "$(dirname "$0")/slip.sh"
slip '20s/^/    labour = labour + house.rate\n/'
