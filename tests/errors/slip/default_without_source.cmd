. "$(dirname "$0")/slip.sh"
slip '9s/, source = "rule of this house"//'
