. "$(dirname "$0")/slip.sh"
slip '2s/, level = 1//'
