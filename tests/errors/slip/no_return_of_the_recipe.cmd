. "$(dirname "$0")/slip.sh"
slip '1s/return recipe/local r = recipe/'
