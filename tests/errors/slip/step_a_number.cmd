. "$(dirname "$0")/slip.sh"
slip '17s/house.begun/15/'
