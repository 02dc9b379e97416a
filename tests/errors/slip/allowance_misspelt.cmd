. "$(dirname "$0")/slip.sh"
slip '18s/house.rate/house.rates/'
