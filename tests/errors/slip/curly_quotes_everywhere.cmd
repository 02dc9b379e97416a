. "$(dirname "$0")/slip.sh"
slip '12,13s/"\([^"]*\)"/“\1”/g'
