. "$(dirname "$0")/slip.sh"
slip '17s/house.begun/"0.1 g"/'
