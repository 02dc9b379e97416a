. "$(dirname "$0")/slip.sh"
slip '16s/, sheet//'
