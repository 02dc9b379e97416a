. "$(dirname "$0")/slip.sh"
slip '2s/"Bench time"/“Bench time”/'
