. "$(dirname "$0")/slip.sh"
slip '17s/= .*/= "5 min" * 2/'
