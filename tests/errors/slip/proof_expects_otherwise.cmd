. "$(dirname "$0")/slip.sh"
slip '26s/85.00/86.00/'
