. "$(dirname "$0")/slip.sh"
slip '19s/line/lin/'
