. "$(dirname "$0")/slip.sh"
slip '21s/labour = labour/labour = "a lot"/'
