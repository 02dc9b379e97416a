. "$(dirname "$0")/slip.sh"
slip '2s/time",/time"/'
