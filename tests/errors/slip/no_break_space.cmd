. "$(dirname "$0")/slip.sh"
slip '17s/local charged/local charged/'
