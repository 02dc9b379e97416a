. "$(dirname "$0")/slip.sh"
slip '17s/:up_to(house.begun)/:rounded "half up"/'
