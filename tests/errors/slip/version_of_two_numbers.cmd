. "$(dirname "$0")/slip.sh"
slip '2s/1.0.0/1.0/'
