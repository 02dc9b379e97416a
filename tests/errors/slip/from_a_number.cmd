. "$(dirname "$0")/slip.sh"
slip '5s/"0 min"/0/'
