. "$(dirname "$0")/slip.sh"
slip '4s/asks/ask/'
